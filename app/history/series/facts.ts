// What the series of a supplier rest on besides its counted lots, as the database has it.
import { and, asc, eq, inArray, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { items } from '../../../db/schema/register.ts'
import { statesFor } from '../../lots/rules/lifecycle.ts'
import { inspectedLots } from '../../series/inspected-lots.ts'
import { notesOf } from '../../series/inspection.ts'
import type { CountedLot } from '../counted-lots.ts'
import type { OpenLot } from './next-lot.ts'
import type { SeriesFacts } from './series.ts'

/** By the name of the item. */
export async function seriesFacts(db: Db, supplierId: number, counted: CountedLot[]): Promise<SeriesFacts[]> {
  const open = await openLots(db, supplierId)
  const known = [...new Set([...counted, ...open].map(({ itemId }) => itemId))]
  if (known.length === 0) return []
  const inspected = await inspectedLots(db, { supplierId })
  const rows = await db.select().from(items).where(inArray(items.id, known)).orderBy(sql`lower(${items.name})`)
  return Promise.all(
    rows.map(async (item) => ({
      item,
      inspected: inspected.filter((lot) => lot.itemId === item.id),
      waiting: open.filter((lot) => lot.itemId === item.id),
      written: await notesOf(db, supplierId, item.id),
    })),
  )
}

/** Lots that wait for their plan, the oldest first. */
async function openLots(db: Db, supplierId: number): Promise<OpenLot[]> {
  return db
    .select({
      lotId: lots.id,
      itemId: lots.itemId,
      size: sql<number>`coalesce(${lots.size}, ${lots.announcedSize})`,
      isolated: lots.isolated,
      resubmissionOf: lots.resubmissionOf,
      replacementOf: lots.replacementOf,
    })
    .from(lots)
    .where(and(eq(lots.supplierId, supplierId), inArray(lots.state, statesFor('receive'))))
    .orderBy(asc(lots.id))
}
