// The arithmetic of what the work list warns of in suppliers' series.
import type { Task } from '../kit/task.ts'
import type { SeriesTerms } from '../lots/rules/standard-terms.ts'
import type { InspectedLotFacts } from '../series/inspected-lots.ts'
import { type SeriesNote, type Switching, switchingAfter } from '../series/switching.ts'
import type { SwitchingState } from '../statistics/switching.ts'
import type { CountedLot } from './counted-lots.ts'
import { differenceOf } from './differ.ts'
import { type FinishedLot, finishedLots } from './finished.ts'
import { priorOfSuppliers, type SampledSupplier } from './rates.ts'
import { entriesInOrder } from './series/series.ts'
import { latestSignal, type TrendPoint, trendOf } from './series/trend.ts'

export type SeriesSignal = {
  supplier: { id: number; name: string }
  item: { id: number; name: string }
  /** the latest lot, where it is beyond what the first ones let expect */
  point: TrendPoint | undefined
  /** its latest finished lots, the latest first, where its lots differ more than one steady process lets them */
  differ: Pick<FinishedLot, 'lotId' | 'tested' | 'found'>[] | undefined
  /** where the series is inspected more strictly than normal, or not at all */
  strict: { inspection: 'tightened' | 'discontinued'; reason: SwitchingState['reason'] } | undefined
  /** how strictly it is inspected is not known, since this lot or note; the inspections that are possible */
  notKnown: { lotId: number | undefined; possible: Switching['possible'] } | undefined
}

/** A series with its decided lots and all notes; `sampled` is what the samples of all suppliers held. */
export type SignalFacts = {
  series: (Pick<SeriesSignal, 'supplier' | 'item'> & {
    lots: CountedLot[]
    inspected: InspectedLotFacts[]
    notes: SeriesNote[]
    terms: SeriesTerms | undefined
  })[]
  sampled: SampledSupplier[]
}

export const signalTask: Task<SignalFacts, SeriesSignal[]> = {
  name: 'series signals',
  work({ series, sampled }) {
    const prior = priorOfSuppliers(sampled)
    return series.flatMap(({ supplier, item, lots, inspected, notes, terms }) => {
      const switching = terms && switchingAfter(inspected, notes, terms)
      const inOrder = entriesInOrder(lots)
      const point = latestSignal(trendOf(inOrder, prior))
      const differ = differIn(finishedLots(inOrder))
      const strict = switching && strictOf(switching)
      const notKnown = switching && notKnownIn(switching)
      return point || differ || strict || notKnown ? [{ supplier, item, point, differ, strict, notKnown }] : []
    })
  },
}

/** So many lots are named. */
const named = 3

function differIn(finished: FinishedLot[]): SeriesSignal['differ'] {
  if (differenceOf(finished).kind !== 'differ') return undefined
  return finished
    .toReversed()
    .slice(0, named)
    .map(({ lotId, tested, found }) => ({ lotId, tested, found }))
}

function notKnownIn({ inspection, lastChange, possible }: Switching): SeriesSignal['notKnown'] {
  return inspection === 'not-known' ? { lotId: lastChange?.lotId, possible } : undefined
}

function strictOf({ inspection, state: { reason } }: Switching): SeriesSignal['strict'] {
  return inspection === 'tightened' || inspection === 'discontinued' ? { inspection, reason } : undefined
}
