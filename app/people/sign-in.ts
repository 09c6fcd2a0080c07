// Signing in, and typing the password again for a signature. Guessing is slowed by a lock on the name.
import { and, eq, lt, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { people, signInAttempts } from '../../db/schema/people.ts'
import { record } from '../audit/record.ts'
import { Refusal } from '../kit/refusal.ts'
import { hashPassword, matchesHash } from './password.ts'
import type { Person } from './person.ts'
import { openSession } from './session.ts'

export const ATTEMPTS = 8
const WINDOW = 15 * 60_000

/** Opens a session for whoever knows the password, tells the audit, and returns the session's token. Says not whether the name or the password was wrong. */
export async function signIn(db: Db, { name, password }: { name: string; password: string }): Promise<string> {
  await countAttempt(db, name)
  const [found] = await db
    .select()
    .from(people)
    .where(and(eq(sql`lower(${people.name})`, sql`lower(${name})`), eq(people.active, true)))
  const right = await matchesHash(found?.passwordHash ?? (await someHash), password)
  if (!found || !right) throw new Refusal('invalid', 'The name or the password is not right', 'password')
  await clearAttempts(db, name)
  return openSessionFor(db, { id: found.id, name: found.name, role: found.role, separateDuties: true })
}

/** Opens a session for a person whose right to it was settled before. */
export async function openSessionFor(db: Db, person: Person): Promise<string> {
  return db.transaction(async (tx) => {
    const token = await openSession(tx, person.id)
    await record(tx, person, 'person.signed-in', `people/${person.id}`, {})
    return token
  })
}

/** Refuses a signature whose password is not the signer's own. The same lock counts the attempts. */
export async function verifyPassword(db: Db, person: Person, password: string): Promise<void> {
  await countAttempt(db, person.name)
  const [found] = await db.select().from(people).where(eq(people.id, person.id))
  if (!found || !(await matchesHash(found.passwordHash, password)))
    throw new Refusal('invalid', 'The password is not right', 'password')
  await clearAttempts(db, person.name)
}

/** For a name that nobody has: as much work as for one that somebody has, so that the time tells nothing. */
const someHash = hashPassword('nobody has this one')

/** Counts before the password is looked at, in one statement: a hundred guesses at once are still counted as a hundred. */
async function countAttempt(db: Db, name: string): Promise<void> {
  const windowStart = new Date(Math.floor(Date.now() / WINDOW) * WINDOW)
  const [row] = await db
    .insert(signInAttempts)
    .values({ name: name.toLowerCase(), windowStart, failures: 1 })
    .onConflictDoUpdate({
      target: [signInAttempts.name, signInAttempts.windowStart],
      set: { failures: sql`${signInAttempts.failures} + 1` },
    })
    .returning()
  if (row && row.failures > ATTEMPTS)
    throw new Refusal('invalid', 'Too many attempts with this name: wait a quarter of an hour', 'password')
}

/** Also forgets what is older than a day, under any name. */
async function clearAttempts(db: Db, name: string): Promise<void> {
  await db.delete(signInAttempts).where(eq(signInAttempts.name, name.toLowerCase()))
  await db.delete(signInAttempts).where(lt(signInAttempts.windowStart, new Date(Date.now() - 96 * WINDOW)))
}
