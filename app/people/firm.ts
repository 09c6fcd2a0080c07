// The firm that this database belongs to, and whether the service may work for it.
import { sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { circumstances, type Unfit, unfitness } from '../../db/fitness.ts'
import { firms } from '../../db/schema/people.ts'

/** Undefined before the first run is finished. */
export async function firmOf(db: Db): Promise<{ name: string; example: boolean } | undefined> {
  const [firm] = await db.select({ name: firms.name, example: firms.example }).from(firms)
  return firm
}

/** The same as the first statement of a request, which looks also whether this process may work on what it finds. */
export async function firmAtArrival(
  db: Db,
): Promise<{ firm: { name: string; example: boolean } | undefined; unfit: Unfit | undefined }> {
  const [found] = await db
    .select({ circumstances, firm: { name: firms.name, example: firms.example } })
    .from(sql`(select) as one`)
    .leftJoin(firms, sql`true`)
  if (!found) throw new Error('The database answered nothing')
  return { firm: found.firm ?? undefined, unfit: unfitness(found.circumstances) }
}
