// Signing in, and typing the password again for a signature.
import { and, eq, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { recordOften } from '../../audit/often.ts'
import { record } from '../../audit/record.ts'
import { Refusal, Wait } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { folded } from '../accounts/name.ts'
import { matchesHash, signedIn, stranger } from '../passwords/password.ts'
import {
  clearAttempts,
  countAttempt,
  FREE_ATTEMPTS,
  signatureCounter,
  signInCounter,
  uncountAttempt,
} from './attempts.ts'
import { openSession } from './session.ts'

export type Attempt = { name: string; password: string; network: string }

/**
 * Opens a session for a person who knows the password, tells the audit, and returns the session's token. Says not whether the
 * name or the password was wrong. Throws Wait where wrong passwords came from this network before (see attempts.ts).
 */
export async function signIn(db: Db, { name, password, network }: Attempt): Promise<string> {
  const { found, foldedName } = await lookUp(db, name)
  const counter = signInCounter(network, foldedName)
  const failures = await countAttempt(db, counter).catch(async (error: unknown) => {
    if (error instanceof Wait) await tellDelay(db, found, network)
    throw error
  })
  const right = await matchesHash(found?.passwordHash ?? null, password, stranger(network)).catch(
    sentAway(db, counter, failures),
  )
  if (!found || !right) {
    if (failures > FREE_ATTEMPTS) await tellDelay(db, found, network)
    throw notRight()
  }
  await clearAttempts(db, counter)
  return db.transaction(async (tx) => {
    await refuseChanged(tx, found)
    return openAndTell(tx, { id: found.id, name: found.name, role: found.role, separateDuties: true })
  })
}

/** Opens a session for a person whose right to it was settled before. */
export async function openSessionFor(db: Db, person: Person): Promise<string> {
  return db.transaction((tx) => openAndTell(tx, person))
}

/** Refuses a signature whose password is not the signer's own. Its attempts are counted apart: no stranger reaches them. */
export async function verifyPassword(db: Db, person: Person, password: string): Promise<void> {
  const counter = signatureCounter(person.id)
  const failures = await countAttempt(db, counter)
  const [found] = await db.select().from(people).where(eq(people.id, person.id))
  const looked = matchesHash(found?.passwordHash ?? null, password, signedIn(person.id))
  if (!(await looked.catch(sentAway(db, counter, failures))))
    throw new Refusal('invalid', 'password/wrong', {}, 'password')
  await clearAttempts(db, counter)
}

async function openAndTell(tx: Tx, person: Person): Promise<string> {
  const token = await openSession(tx, person.id)
  await record(tx, person, 'person.signed-in', `people/${person.id}`, {})
  return token
}

type Found = { id: number; passwordHash: string | null }

/** The hash takes a while, and waits for its turn: a password that was reset or changed meanwhile opens nothing any more. */
async function refuseChanged(tx: Tx, { id, passwordHash }: Found): Promise<void> {
  const [now] = await tx.select().from(people).where(eq(people.id, id)).for('share')
  if (!now?.active || now.passwordHash !== passwordHash) throw notRight()
}

function notRight(): Refusal {
  return new Refusal('invalid', 'password/sign-in', {}, 'password')
}

/** Who finds the gate full has guessed nothing: a crowd of strangers must not make right passwords count as wrong ones. */
function sentAway(db: Db, counter: string, failures: number) {
  return async (error: unknown): Promise<never> => {
    if (error instanceof Wait) await uncountAttempt(db, counter, failures)
    throw error
  }
}

async function lookUp(db: Db, name: string) {
  const [row] = await db.select({ foldedName: folded(name) }).from(sql`(select) nothing`)
  const [found] = await db
    .select()
    .from(people)
    .where(and(eq(folded(people.name), folded(name)), eq(people.active, true)))
  return { found, foldedName: row?.foldedName ?? '' }
}

/** For a name that nobody has there is one count for all of them. */
async function tellDelay(db: Db, found: { id: number } | undefined, network: string): Promise<void> {
  const subject = found ? `people/${found.id}` : 'people'
  await recordOften(db, {
    who: 'Somebody not signed in',
    action: 'person.sign-in-delayed',
    subject,
    detail: { network },
  })
}
