// What is not kept for ever: wrong passwords, counts of hours and links that are over.
import { type SQL, sql } from 'drizzle-orm'
import type { Tx } from '../../db/client.ts'
import { eventCounts } from '../../db/schema/audit.ts'
import { oneTimeLinks, passwordAttempts } from '../../db/schema/people.ts'

const AT_ONCE = 5000

const over: SQL[] = [
  sql`${passwordAttempts} where ctid in (select ctid from ${passwordAttempts} where last_at < now() - interval '1 day' limit ${AT_ONCE}::int)`,
  sql`${eventCounts} where ctid in (select ctid from ${eventCounts} where hour < now() - interval '1 day' limit ${AT_ONCE}::int)`,
  sql`${oneTimeLinks} where ctid in (select ctid from ${oneTimeLinks} where expires_at < now() - interval '30 days' limit ${AT_ONCE}::int)`,
]

/** Removes so much at once that no sign-in waits for it; true where more is left. */
export async function forgetOldAttempts(tx: Tx): Promise<boolean> {
  let more = false
  for (const rows of over) more = (await tx.execute(sql`delete from ${rows}`)).count === AT_ONCE || more
  return more
}
