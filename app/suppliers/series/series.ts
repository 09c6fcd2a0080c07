// The series of a supplier: its lots of one item each, with trend, inspection state and what comes next.
import { and, asc, eq, inArray, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { items } from '../../../db/schema/register.ts'
import type { Belief } from '../../statistics/history/lower.ts'
import type { CountedLot } from '../history.ts'
import { notesOf, type SeriesNote, type Switching, switchingAfter } from '../switching.ts'
import { type NextLot, nextLotOf, type OpenLot } from './next-lot.ts'
import { possibleNotes } from './note.ts'
import { seriesTermsOf } from './terms.ts'
import { type Trend, trendOf } from './trend.ts'

export type Series = {
  item: { id: number; name: string; critical: boolean; acceptanceQualityLimit: string | undefined }
  switching: Switching
  /** what a manager may say of it now */
  notes: SeriesNote['kind'][]
  /** undefined while it has too few lots to show one */
  trend: Trend | undefined
  next: NextLot
}

/**
 * The series of one supplier, by the name of the item.
 *
 * @param counted its lots as the history has them
 * @param prior what is believed of a supplier before its first lot
 */
export async function seriesOf(db: Db, supplierId: number, counted: CountedLot[], prior: Belief): Promise<Series[]> {
  const open = await openLots(db, supplierId)
  const known = [...new Set([...counted, ...open].map(({ itemId }) => itemId))]
  if (known.length === 0) return []
  const rows = await db.select().from(items).where(inArray(items.id, known)).orderBy(sql`lower(${items.name})`)
  return Promise.all(
    rows.map(async (item) => {
      const own = inOrder(counted.filter((lot) => lot.itemId === item.id))
      const waiting = open.filter((lot) => lot.itemId === item.id)
      const switching = switchingAfter(own, await notesOf(db, supplierId, item.id), seriesTermsOf(item))
      const { id, name, critical, acceptanceQualityLimit } = item
      return {
        item: { id, name, critical, acceptanceQualityLimit: acceptanceQualityLimit ?? undefined },
        switching,
        notes: switching.counted === 0 ? [] : possibleNotes(switching),
        trend: trendOf(own, prior),
        next: nextLotOf(item, switching, waiting, own.at(-1)?.size ?? waiting[0]?.size ?? 1),
      }
    }),
  )
}

/** Lots in the order of their decisions, those without one last. */
export function inOrder(counted: CountedLot[]): CountedLot[] {
  const at = (lot: CountedLot) => lot.decided?.at.getTime() ?? Number.POSITIVE_INFINITY
  return counted.toSorted((one, other) => at(one) - at(other) || one.lotId - other.lotId)
}

/** Lots that wait for their plan, the oldest first. */
async function openLots(db: Db, supplierId: number): Promise<OpenLot[]> {
  return db
    .select({
      lotId: lots.id,
      itemId: lots.itemId,
      size: sql<number>`coalesce(${lots.size}, ${lots.announcedSize})`,
      isolated: lots.isolated,
    })
    .from(lots)
    .where(and(eq(lots.supplierId, supplierId), inArray(lots.state, ['announced', 'received'])))
    .orderBy(asc(lots.id))
}
