// Whether this process may work on the database as it finds it: as the service's login, within limits, on the schema it knows.
import { type SQL, sql } from 'drizzle-orm'
import type { Db } from './client.ts'
import { limits } from './login.ts'
import { newestStep } from './migrate.ts'

export type Unfit = {
  sentence: string
  /** pages can be shown still, only nothing changed */
  readable: boolean
}

/** What tells it, to be read with the first statement of a request: a pooler may give each one another session. */
export const circumstances = {
  loggedIn: sql<string>`session_user::text`,
  worksAs: sql<string>`current_user::text`,
  serves: sql<boolean>`works_for_the_service()`,
  timeLimit: sql<number>`(extract(epoch from current_setting('statement_timeout')::interval) * 1000)::int`,
  step: sql<string>`(select created_at::text from drizzle.__drizzle_migrations order by created_at desc limit 1)`,
}

type Circumstances = {
  [name in keyof typeof circumstances]: (typeof circumstances)[name] extends SQL<infer T> ? T : never
}

/** What is wrong and how to put it right; undefined where all is well. */
export function unfitness({ loggedIn, worksAs, serves, timeLimit, step }: Circumstances): Unfit | undefined {
  if (!serves || worksAs !== loggedIn)
    return {
      sentence: `The service works in its database as ${worksAs} (logged in as ${loggedIn}), who may change what was signed, so it does nothing. DATABASE_URL, or the pooler behind it, must use the service’s own login.`,
      readable: false,
    }
  if (timeLimit === 0 || timeLimit > limits.statement_timeout)
    return {
      sentence: `A session of ${loggedIn} has no time limit in the database, so the service does nothing. Let no pooler set statement_timeout, and restart the service: it sees to the limits of its login.`,
      readable: false,
    }
  if (Number(step) > newestStep)
    return {
      sentence:
        'The database was brought to a newer version of Cordsift than this process runs, so it changes nothing more; pages can still be read. The administrator can stop this process: the newer one takes the same form.',
      readable: true,
    }
  return undefined
}

/** The same for whoever watches the service. */
export async function unfitnessOf(db: Db): Promise<Unfit | undefined> {
  const [found] = await db.select(circumstances).from(sql`(select) as one`)
  if (!found) throw new Error('The database answered nothing')
  return unfitness(found)
}
