// What the next lot of a series will need, as the item and the inspection state have it.
import type { items } from '../../../db/schema/register.ts'
import { wholeCords } from '../../kit/decimal.ts'
import { seriesTermsOf, singlePlanOf } from '../../lots/rules/standard-terms.ts'
import { type OutsideSeries, outsideSeries, type SeriesLot } from '../../series/outside.ts'
import type { Switching } from '../../series/switching.ts'
import type { Inspection, StandardPlan } from '../../statistics/plans/standard.ts'
import { designZeroForLot } from '../../statistics/plans/zero.ts'

/** A lot that waits for its plan. */
export type OpenLot = SeriesLot & { lotId: number; itemId: number }

export type Need =
  /** a critical item: every cord is tested */
  | { kind: 'every-cord' }
  /** a discontinued series: nothing is taken until the supplier has acted */
  | { kind: 'nothing-taken' }
  /** the plan of the standard in the severity that the series has, or the strictest that it may have */
  | { kind: 'standard'; inspection: Inspection; plan: StandardPlan }
  /** the item names no acceptance quality limit, or the lot stands outside the series: only the item's own demand counts */
  | { kind: 'demand-alone'; why: 'no limit' | OutsideSeries }

export type NextLot = {
  /** the open lot that is meant; undefined: a lot like the last one */
  lotId: number | undefined
  size: number
  need: Need
  /** what the item demands whatever the standard says: the smallest sample that allows none */
  demanded: { tooMany: number; catchOf100: string; sampleSize: number }
}

/** What a series needs to know of its item. */
export type SeriesItem = Pick<
  typeof items.$inferSelect,
  'id' | 'name' | 'critical' | 'acceptanceQualityLimit' | 'inspectionLevel' | 'tooMany' | 'catchOf100'
>

/** For the oldest lot that waits for its plan, or else for a lot as large as the last one. */
export function nextLotOf(
  item: SeriesItem,
  switching: Switching | undefined,
  open: OpenLot[],
  lastSize: number,
): NextLot {
  const next = open[0]
  const size = next?.size ?? lastSize
  const tooMany = wholeCords(item.tooMany, size) ?? size
  const risk = (100 - Number(item.catchOf100)) / 100
  return {
    lotId: next?.lotId,
    size,
    need: needOf(item, switching, next ?? { ...likeTheLast, size }),
    demanded: {
      tooMany,
      catchOf100: item.catchOf100,
      sampleSize: designZeroForLot({ lotSize: size, nonconforming: tooMany, risk }),
    },
  }
}

const likeTheLast = { isolated: false, resubmissionOf: null, replacementOf: null }

function needOf(item: SeriesItem, switching: Switching | undefined, lot: SeriesLot): Need {
  if (item.critical) return { kind: 'every-cord' }
  const why = outsideSeries(lot)
  if (why && why !== 'one cord') return { kind: 'demand-alone', why }
  const terms = seriesTermsOf(item)
  if (!terms || !switching) return { kind: 'demand-alone', why: 'no limit' }
  const { inspection } = switching.state
  if (inspection === 'discontinued') return { kind: 'nothing-taken' }
  const plan = singlePlanOf(terms, lot.size, inspection)
  return plan ? { kind: 'standard', inspection, plan } : { kind: 'demand-alone', why: 'one cord' }
}
