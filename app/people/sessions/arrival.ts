// The first statement of every request: who comes, to which firm, and whether this process may work on what it finds.
import { and, eq, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { circumstances, type Unfit, unfitness } from '../../../db/fitness.ts'
import { firms, people, sessions } from '../../../db/schema/people.ts'
import { statement } from '../../../db/statement.ts'
import type { Person } from '../../terms/person.ts'
import { ended, hashOf } from './session.ts'

export type Arrival = {
  /** undefined before the first run is finished */
  firm: { name: string; example: boolean } | undefined
  /** undefined where the process may do all its work */
  unfit: Unfit | undefined
  /** whose session is open, active still, with their role as it is now */
  person: Person | undefined
  /** the password was typed by a manager: nothing can be done before another is chosen */
  passwordTemporary: boolean
}

/**
 * Reads all of it at once: a pooler may give the next statement another session of the database. That somebody was here is
 * noted once a minute, which is enough to know an idle session, and not at all by a process that is to write no more. A
 * session that is found ended is removed at once: it stays ended though the clock should step back.
 */
export async function arrivalOf(db: Db, token: string | undefined, separateDuties: boolean): Promise<Arrival> {
  const tokenHash = token === undefined ? null : hashOf(token)
  const [found] = await comingOf(db, { tokenHash })
  if (!found) throw new Error('The database answered nothing')
  const unfit = unfitness(found.circumstances)
  const own = eq(sessions.tokenHash, tokenHash ?? '')
  if (!unfit && found.ended) await db.delete(sessions).where(own)
  const open = found.person && !found.ended ? found.person : undefined
  if (!unfit && open && found.unseen) await db.update(sessions).set({ lastSeenAt: sql`clock_timestamp()` }).where(own)
  return {
    firm: found.firm ?? undefined,
    unfit,
    person: open && { id: open.id, name: open.name, role: open.role, separateDuties },
    passwordTemporary: open?.passwordTemporary ?? false,
  }
}

const comingOf = statement<{ tokenHash: string | null }>('arrival', ['tokenHash']).worded((db, { tokenHash }) => {
  const { id, name, role, passwordTemporary } = people
  return db
    .select({
      circumstances,
      firm: { name: firms.name, example: firms.example },
      person: { id, name, role, passwordTemporary },
      ended,
      unseen: sql<boolean>`${sessions.lastSeenAt} < clock_timestamp() - interval '1 minute'`,
    })
    .from(sql`(select) as one`)
    .leftJoin(firms, sql`true`)
    .leftJoin(sessions, eq(sessions.tokenHash, tokenHash))
    .leftJoin(people, and(eq(people.id, sessions.personId), eq(people.active, true)))
})
