// The series of a supplier: its lots of one item each, with trend, inspection state and what comes next.
import type { Belief } from '../../statistics/history/lower.ts'
import type { CountedLot } from '../counted-lots.ts'
import { type NextLot, nextLotOf, type OpenLot, type SeriesItem } from './next-lot.ts'
import { possibleNotes, type SeriesNote, type Switching, switchingAfter } from './switching.ts'
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

/** An item of the supplier, its lots that wait for their plan, the oldest first, and what managers wrote of the series. */
export type SeriesFacts = { item: SeriesItem; waiting: OpenLot[]; written: SeriesNote[] }

/**
 * The series of one supplier, in the order of the facts.
 *
 * @param counted its lots as the history has them
 * @param prior what is believed of a supplier before its first lot
 */
export function seriesFrom(facts: SeriesFacts[], counted: CountedLot[], prior: Belief): Series[] {
  return facts.map(({ item, waiting, written }) => {
    const own = entriesInOrder(counted.filter((lot) => lot.itemId === item.id))
    const switching = switchingAfter(own, written, seriesTermsOf(item))
    const { id, name, critical, acceptanceQualityLimit } = item
    return {
      item: { id, name, critical, acceptanceQualityLimit: acceptanceQualityLimit ?? undefined },
      switching,
      notes: switching.counted === 0 ? [] : possibleNotes(switching),
      trend: trendOf(own, prior),
      next: nextLotOf(item, switching, waiting, own.at(-1)?.size ?? waiting[0]?.size ?? 1),
    }
  })
}

/** Lots in the order of their decisions, those without one last. */
export function entriesInOrder(counted: CountedLot[]): CountedLot[] {
  const at = (lot: CountedLot) => lot.decided?.at.getTime() ?? Number.POSITIVE_INFINITY
  return counted.toSorted((one, other) => at(one) - at(other) || one.lotId - other.lotId)
}
