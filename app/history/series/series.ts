// The series of a supplier: its lots of one item each, with trend, inspection state and what comes next.

import { seriesTermsOf } from '../../lots/rules/standard-terms.ts'
import type { InspectedLotFacts } from '../../series/inspected-lots.ts'
import { possibleNotes, type SeriesNote, type Switching, switchingAfter } from '../../series/switching.ts'
import type { Belief } from '../../statistics/history/lower.ts'
import type { CountedLot } from '../counted-lots.ts'
import { type Difference, differenceOf } from '../differ.ts'
import { type FinishedLot, finishedLots } from '../finished.ts'
import { type NextHolds, nextHolds } from '../next-holds.ts'
import { type NextLot, nextLotOf, type OpenLot, type SeriesItem } from './next-lot.ts'
import { type Trend, trendOf } from './trend.ts'

export type Series = {
  item: { id: number; name: string; critical: boolean; acceptanceQualityLimit: string | undefined }
  /** undefined where the item names no acceptance quality limit: the standard's rules do not apply */
  switching: Switching | undefined
  /** what a manager may say of it now */
  notes: SeriesNote['kind'][]
  /** undefined while it has too few lots to show one */
  trend: Trend | undefined
  next: NextLot
  /** those whose plan has ended, in the order of their decisions */
  finished: FinishedLot[]
  difference: Difference
  /** undefined under five finished lots */
  holds: NextHolds | undefined
}

/** An item of the supplier, its decided lots as the standard has them, those that wait for their plan, the oldest first, and what managers wrote of the series. */
export type SeriesFacts = {
  item: SeriesItem
  inspected: InspectedLotFacts[]
  waiting: OpenLot[]
  written: SeriesNote[]
}

/**
 * The series of one supplier, in the order of the facts.
 *
 * @param counted its lots as the history has them
 * @param prior what is believed of a supplier before its first lot
 */
export function seriesFrom(facts: SeriesFacts[], counted: CountedLot[], prior: Belief): Series[] {
  return facts.map(({ item, inspected, waiting, written }) => {
    const own = entriesInOrder(counted.filter((lot) => lot.itemId === item.id))
    const terms = seriesTermsOf(item)
    const switching = terms && switchingAfter(inspected, written, terms)
    const { id, name, critical, acceptanceQualityLimit } = item
    const finished = finishedLots(own)
    const next = nextLotOf(item, switching, waiting, own.at(-1)?.size ?? waiting[0]?.size ?? 1)
    return {
      item: { id, name, critical, acceptanceQualityLimit: acceptanceQualityLimit ?? undefined },
      switching,
      notes: switching?.verdicts.length ? possibleNotes(switching) : [],
      trend: trendOf(own, prior),
      next,
      finished,
      difference: differenceOf(finished),
      holds: nextHolds(finished, next.size),
    }
  })
}

/** Lots in the order of their decisions, those without one last. */
export function entriesInOrder(counted: CountedLot[]): CountedLot[] {
  const at = (lot: CountedLot) => lot.decided?.at.getTime() ?? Number.POSITIVE_INFINITY
  return counted.toSorted((one, other) => at(one) - at(other) || one.lotId - other.lotId)
}
