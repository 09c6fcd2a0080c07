// Sessions live in the database: only the SHA-256 of a token is kept, so a copy of the table opens none.
import { createHash, randomBytes } from 'node:crypto'
import { and, eq, inArray, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { people, sessions } from '../../db/schema/people.ts'
import type { Person } from './person.ts'

/** A session ends a week after sign-in, and after a night without a request; by the database's clock, which is the same for every process. */
const LONGEST = '7 days'
const IDLE = '12 hours'
const ended = sql<boolean>`(${sessions.expiresAt} <= clock_timestamp() or ${sessions.lastSeenAt} <= clock_timestamp() - ${IDLE}::interval)`

/** Opens a session and returns its token, which exists nowhere else than in the browser's cookie. */
export async function openSession(tx: Tx, personId: number): Promise<string> {
  const token = randomBytes(32).toString('base64url')
  const expiresAt = sql`clock_timestamp() + ${LONGEST}::interval`
  await tx.insert(sessions).values({ tokenHash: hashOf(token), personId, expiresAt })
  return token
}

/**
 * The person of a session that is open, and active still; their role as it is now. `noted`: that they were here, which is
 * a write. A session that is found ended is removed at once: it stays ended though the clock should step back.
 */
export async function personOf(
  db: Db,
  token: string,
  separateDuties: boolean,
  noted: boolean,
): Promise<Person | undefined> {
  const { id, name, role } = people
  const unseen = sql<boolean>`${sessions.lastSeenAt} < clock_timestamp() - interval '1 minute'`
  const [row] = await db
    .select({ id, name, role, ended, unseen })
    .from(sessions)
    .innerJoin(people, eq(people.id, sessions.personId))
    .where(and(eq(sessions.tokenHash, hashOf(token)), eq(people.active, true)))
  if (!row) return undefined
  if (row.ended) {
    if (noted) await closeSession(db, token)
    return undefined
  }
  // Once a minute is enough to know an idle session; every request would be a write of its own.
  if (noted && row.unseen)
    await db
      .update(sessions)
      .set({ lastSeenAt: sql`clock_timestamp()` })
      .where(eq(sessions.tokenHash, hashOf(token)))
  return { id: row.id, name: row.name, role: row.role, separateDuties }
}

export async function closeSession(db: Db, token: string): Promise<void> {
  await db.delete(sessions).where(eq(sessions.tokenHash, hashOf(token)))
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
