// The inspection state of one series, read and computed.
import { and, asc, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { items, seriesNotes } from '../../../db/schema/register.ts'
import { countedLots } from '../counted-lots.ts'
import { type SeriesNote, type Switching, switchingAfter } from './switching.ts'
import { seriesTermsOf } from './terms.ts'

/** Where the series of a supplier and an item stands under the switching rules: see `switchingAfter`. */
export async function switchingOf(
  db: Db | Tx,
  { supplierId, itemId }: { supplierId: number; itemId: number },
): Promise<Switching> {
  const [item] = await db.select().from(items).where(eq(items.id, itemId))
  const lots = await countedLots(db, { supplierId, itemId })
  return switchingAfter(lots, await notesOf(db, supplierId, itemId), seriesTermsOf(item))
}

/** The notes of a series, the oldest first. */
export function notesOf(db: Db | Tx, supplierId: number, itemId: number): Promise<SeriesNote[]> {
  return db
    .select({ kind: seriesNotes.kind, reason: seriesNotes.reason, at: seriesNotes.at })
    .from(seriesNotes)
    .where(and(eq(seriesNotes.supplierId, supplierId), eq(seriesNotes.itemId, itemId)))
    .orderBy(asc(seriesNotes.id))
}
