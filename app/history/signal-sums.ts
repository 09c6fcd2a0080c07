// The arithmetic of what the work list warns of in suppliers' series.
import type { Task } from '../kit/task.ts'
import type { SwitchingState } from '../statistics/switching.ts'
import type { CountedLot } from './counted-lots.ts'
import { ratesFrom, type SampledSupplier } from './rates.ts'
import { entriesInOrder } from './series/series.ts'
import { type SeriesNote, switchingAfter } from './series/switching.ts'
import type { SeriesTerms } from './series/terms.ts'
import { latestSignal, type TrendPoint, trendOf } from './series/trend.ts'

export type SeriesSignal = {
  supplier: { id: number; name: string }
  item: { id: number; name: string }
  /** the latest lot, where it is beyond what the first ones let expect */
  point: TrendPoint | undefined
  /** where the series is inspected more strictly than normal, or not at all */
  strict: { inspection: 'tightened' | 'discontinued'; reason: SwitchingState['reason'] } | undefined
}

/** A series with its decided lots and all notes; `sampled` is what the samples of all suppliers held. */
export type SignalFacts = {
  series: (Pick<SeriesSignal, 'supplier' | 'item'> & {
    lots: CountedLot[]
    notes: SeriesNote[]
    terms: SeriesTerms | undefined
  })[]
  sampled: SampledSupplier[]
}

export const signalTask: Task<SignalFacts, SeriesSignal[]> = {
  name: 'series signals',
  work({ series, sampled }) {
    const { prior } = ratesFrom(sampled)
    return series.flatMap(({ supplier, item, lots, notes, terms }) => {
      const { state } = switchingAfter(lots, notes, terms)
      const point = latestSignal(trendOf(entriesInOrder(lots), prior))
      const strict = strictOf(state)
      return point || strict ? [{ supplier, item, point, strict }] : []
    })
  },
}

function strictOf({ inspection, reason }: SwitchingState): SeriesSignal['strict'] {
  return inspection === 'tightened' || inspection === 'discontinued' ? { inspection, reason } : undefined
}
