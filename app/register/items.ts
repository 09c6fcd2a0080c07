// Items as the pages show them.
import { eq, getTableColumns, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { Refusal } from '../kit/refusal.ts'
import type { ItemTerms } from './item-terms.ts'

export type ItemFacts = ItemTerms & {
  id: number
  /** sent back with a change, so that a stale page is refused */
  version: number
  /** lots of this item, whatever their state */
  lots: number
}

/** All items by name. */
export async function itemsOf(db: Db): Promise<ItemFacts[]> {
  return select(db).orderBy(sql`lower(${items.name})`)
}

/** The same as names to choose from. */
export async function itemChoices(db: Db): Promise<{ id: number; name: string }[]> {
  return db.select({ id: items.id, name: items.name }).from(items).orderBy(sql`lower(${items.name})`)
}

/** One item; throws Refusal (missing) where there is none of that number. */
export async function itemOf(db: Db, itemId: number): Promise<ItemFacts> {
  const [item] = await select(db).where(eq(items.id, itemId))
  if (!item) throw new Refusal('missing', 'item/missing', { item: itemId })
  return item
}

function select(db: Db) {
  const { createdBy, createdAt, ...shown } = getTableColumns(items)
  // Columns of the outer table are written out: drizzle drops their table's name where only one is selected from.
  const count = sql<number>`(select count(*)::int from ${lots} where ${lots}.item_id = ${items}.id)`
  return db.select({ ...shown, lots: count }).from(items)
}
