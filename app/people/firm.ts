// The firm that this database belongs to.
import type { Db } from '../../db/client.ts'
import { firms } from '../../db/schema/people.ts'

export type Firm = { name: string; example: boolean }

/** Undefined before the first run is finished. */
export async function firmOf(db: Db): Promise<Firm | undefined> {
  const [firm] = await db.select({ name: firms.name, example: firms.example }).from(firms)
  return firm
}
