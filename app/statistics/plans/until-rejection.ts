// Cords really tested when one stops at the rejection number: what a single plan costs in a lot that is too bad.
import { count } from '../check.ts'
import { type LotQuality, lawOfLot } from './law.ts'
import type { PlanNumbers } from './two-points.ts'

/**
 * Average number of units tested in a lot when testing stops with the first nonconforming unit above the acceptance
 * number, and the sample is finished otherwise. Unlike `curtailedSampleSizeOfLot` it does not stop where acceptance has
 * become certain: every unit of an accepted sample is tested.
 *
 * @param plan sampleSize n from 0 to the lot size, acceptanceNumber c from 0
 * @param quality lotSize N ≥ 1 units, 0 ≤ nonconforming ≤ N
 * @returns units, at most n
 * @throws RangeError that names the argument out of range
 *
 * Formula: n P(X ≤ c) + E[T; T ≤ n], T the place of the (c + 1)th nonconforming unit in the order of testing.
 *
 * @example averageUntilRejection({ sampleSize: 216, acceptanceNumber: 0 }, { lotSize: 480, nonconforming: 5 }) // 78.0
 */
export function averageUntilRejection(plan: PlanNumbers, quality: LotQuality): number {
  const { sampleSize, acceptanceNumber } = plan
  const law = lawOfLot(quality)
  count('sampleSize', sampleSize, 0, quality.lotSize)
  count('acceptanceNumber', acceptanceNumber, 0)

  const finished = sampleSize * law.atMost(acceptanceNumber, sampleSize)
  return finished + law.untilNonconforming(acceptanceNumber + 1, sampleSize)
}
