// Sessions live in the database: only the SHA-256 of a token is kept, so a copy of the table opens none.
import { createHash, randomBytes } from 'node:crypto'
import { and, eq, inArray, ne, not, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { people, sessions } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import type { Person } from '../../terms/person.ts'
import { requireActive } from '../standing.ts'

/** A session ends a week after sign-in, and after a night without a request; by the database's clock, which is the same for every process. */
const LONGEST = '7 days'
const IDLE = '12 hours'
export const ended = sql<boolean>`(${sessions.expiresAt} <= clock_timestamp() or ${sessions.lastSeenAt} <= clock_timestamp() - ${IDLE}::interval)`

/** Opens a session and returns its token, which exists nowhere else than in the browser's cookie. */
export async function openSession(tx: Tx, personId: number): Promise<string> {
  const token = randomBytes(32).toString('base64url')
  const expiresAt = sql`clock_timestamp() + ${LONGEST}::interval`
  await tx.insert(sessions).values({ tokenHash: hashOf(token), personId, expiresAt })
  return token
}

/** How many sessions of a person are open besides the one of this token. */
export async function otherSessionsOf(db: Db, personId: number, token: string): Promise<number> {
  return db.$count(sessions, and(others(personId, token), not(ended)))
}

/** Ends a session, and tells whose it was. Nothing for a token that opens none. */
export async function signOut(db: Db, token: string): Promise<void> {
  await db.transaction(async (tx) => {
    const [closed] = await tx
      .delete(sessions)
      .where(eq(sessions.tokenHash, hashOf(token)))
      .returning()
    if (!closed) return
    const [row] = await tx.select().from(people).where(eq(people.id, closed.personId))
    if (!row) throw new Error(`a session of person ${closed.personId}, who is not there`)
    const { id, name, role } = row
    await record(tx, { id, name, role, separateDuties: true }, 'person.signed-out', `people/${id}`, {})
  })
}

/** Ends every session of a person but the one of this token; returns how many they were. */
export async function signOutElsewhere(db: Db, person: Person, token: string): Promise<number> {
  return db.transaction(async (tx) => {
    await requireActive(tx, person)
    const { length } = await tx.delete(sessions).where(others(person.id, token)).returning()
    if (length > 0) await record(tx, person, 'person.signed-out-elsewhere', `people/${person.id}`, { sessions: length })
    return length
  })
}

const SLICE = 1000

/** Removes a slice of the ended sessions, asked for or not; returns whether more may be left. */
export async function forgetEndedSessions(tx: Tx): Promise<boolean> {
  const some = tx.select({ tokenHash: sessions.tokenHash }).from(sessions).where(ended).limit(SLICE)
  const gone = await tx.delete(sessions).where(inArray(sessions.tokenHash, some)).returning()
  return gone.length === SLICE
}

/** Ends every session of a person, wherever it is open. */
export async function closeSessionsOf(tx: Tx, personId: number): Promise<void> {
  await tx.delete(sessions).where(eq(sessions.personId, personId))
}

/** For tokens that are random already; a password needs a slow hash instead. */
export function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}

function others(personId: number, token: string) {
  return and(eq(sessions.personId, personId), ne(sessions.tokenHash, hashOf(token)))
}
