// Sessions live in the database: only the SHA-256 of a token is kept, so a copy of the table opens none.
import { createHash, randomBytes } from 'node:crypto'
import { and, eq, gt, lt, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { people, sessions } from '../../db/schema/people.ts'
import type { Person } from './person.ts'

const HOUR = 3_600_000
/** A session ends a week after sign-in, and after a night without a request. */
const LONGEST = 7 * 24 * HOUR
const IDLE = 12 * HOUR

/** Opens a session and returns its token, which exists nowhere else than in the browser's cookie. */
export async function openSession(tx: Tx, personId: number): Promise<string> {
  const token = randomBytes(32).toString('base64url')
  await tx.delete(sessions).where(lt(sessions.expiresAt, new Date()))
  await tx.insert(sessions).values({ tokenHash: hashOf(token), personId, expiresAt: new Date(Date.now() + LONGEST) })
  return token
}

/** The person of a session that is open, and active still; their role as it is now. `noted`: that they were here, which is a write. */
export async function personOf(
  db: Db,
  token: string,
  separateDuties: boolean,
  noted: boolean,
): Promise<Person | undefined> {
  const now = Date.now()
  const open = and(
    eq(sessions.tokenHash, hashOf(token)),
    gt(sessions.expiresAt, new Date(now)),
    gt(sessions.lastSeenAt, new Date(now - IDLE)),
    eq(people.active, true),
  )
  const [row] = await db
    .select({ id: people.id, name: people.name, role: people.role, lastSeenAt: sessions.lastSeenAt })
    .from(sessions)
    .innerJoin(people, eq(people.id, sessions.personId))
    .where(open)
  if (!row) return undefined
  // Once a minute is enough to know an idle session; every request would be a write of its own.
  if (noted && now - row.lastSeenAt.getTime() > 60_000)
    await db
      .update(sessions)
      .set({ lastSeenAt: sql`now()` })
      .where(eq(sessions.tokenHash, hashOf(token)))
  return { id: row.id, name: row.name, role: row.role, separateDuties }
}

export async function closeSession(db: Db, token: string): Promise<void> {
  await db.delete(sessions).where(eq(sessions.tokenHash, hashOf(token)))
}

/** Ends every session of a person, wherever it is open. */
export async function closeSessionsOf(tx: Tx, personId: number): Promise<void> {
  await tx.delete(sessions).where(eq(sessions.personId, personId))
}

/** For tokens that are random already; a password needs a slow hash instead. */
export function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}
