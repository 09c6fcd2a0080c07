// Of every lot the sample that costs least on average, for a buyer who knew beforehand how such lots differ.
import { optimalPlan } from '../../statistics/economics/optimal-plan.ts'
import { priorOfNextLot } from '../../statistics/history/next-lot.ts'
import type { PlanNumbers } from '../../statistics/plans/two-points.ts'
import { fewestLots } from '../series-prior.ts'
import type { AlikeLots } from './alike.ts'

/**
 * The sample of least expected cost for each lot, at its own costs, under the distribution that all these lots show
 * together. It looks back: nobody knew that distribution before the lots came. Undefined under five lots, where nothing is fitted.
 */
export function leastCostSamples(known: AlikeLots[]): ((lot: AlikeLots) => PlanNumbers) | undefined {
  const each = known.flatMap(({ lots, size, found }) =>
    Array.from({ length: lots }, () => ({ sampleSize: size, found })),
  )
  if (each.length < fewestLots) return undefined
  const prior = priorOfNextLot(each)
  const answered = new Map<string, PlanNumbers>()
  return ({ size, costTestCents, costEscapeCents, costReturnCents, afterRejection }) => {
    const key = [size, costTestCents, costEscapeCents, costReturnCents, afterRejection].join('/')
    const before = answered.get(key)
    if (before) return before
    const costs = { test: costTestCents, escape: costEscapeCents, rejection: costReturnCents }
    const { sampleSize, acceptanceNumber } = optimalPlan({ lotSize: size, prior, costs, afterRejection })
    const least = { sampleSize, acceptanceNumber }
    answered.set(key, least)
    return least
  }
}
