// The inspection state of one series, read and computed.
import { and, asc, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { items, seriesNotes } from '../../db/schema/register.ts'
import { type SeriesTerms, seriesTermsOf } from '../lots/rules/standard-terms.ts'
import { inspectedLots } from './inspected-lots.ts'
import { type SeriesNote, type Switching, switchingAfter } from './switching.ts'

export type OneSeries = { supplierId: number; itemId: number }

/** Where a series stands under the switching rules, and what its item says of them; undefined where no contract names a limit. */
export async function switchingOf(
  db: Db | Tx,
  { supplierId, itemId }: OneSeries,
): Promise<{ switching: Switching; terms: SeriesTerms } | undefined> {
  const [item] = await db.select().from(items).where(eq(items.id, itemId))
  const terms = seriesTermsOf(item)
  if (!terms) return undefined
  const lots = await inspectedLots(db, { supplierId, itemId })
  return { switching: switchingAfter(lots, await notesOf(db, supplierId, itemId), terms), terms }
}

/** The notes of a series, the oldest first. */
export function notesOf(db: Db | Tx, supplierId: number, itemId: number): Promise<SeriesNote[]> {
  return db
    .select({ kind: seriesNotes.kind, reason: seriesNotes.reason, at: seriesNotes.at })
    .from(seriesNotes)
    .where(and(eq(seriesNotes.supplierId, supplierId), eq(seriesNotes.itemId, itemId)))
    .orderBy(asc(seriesNotes.id))
}
