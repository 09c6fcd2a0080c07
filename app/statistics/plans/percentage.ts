// Percentage plans: a fixed share of the lot, whatever its size. Kept to show what they do: the risk moves with the lot.
import { count, probability } from '../check.ts'
import type { Plan } from './plan.ts'
import { singlePlan } from './single.ts'

/**
 * Whole units in a share of a lot, rounded up. The product is taken in decimal (to 9 places): in binary 0.07 × 100 is
 * 7.000000000000001, and rounding that up would give 8.
 *
 * @param share from 0 to 1
 * @param lotSize units
 * @throws RangeError that names the argument out of range
 * @example unitsInShare(0.29, 1000) // 290
 */
export function unitsInShare(share: number, lotSize: number): number {
  probability('share', share)
  count('lotSize', lotSize)

  return Math.ceil(Number((share * lotSize).toFixed(9)))
}

/**
 * The plan that tests a share of the lot, rounded up to whole units.
 *
 * @example percentagePlan({ lotSize: 480, share: 0.1, acceptanceNumber: 0 }) // 48 units, none allowed
 */
export function percentagePlan(policy: { lotSize: number; share: number; acceptanceNumber: number }): Plan {
  const { lotSize, share, acceptanceNumber } = policy
  return { ...singlePlan({ sampleSize: unitsInShare(share, lotSize), acceptanceNumber }), kind: 'percentage' }
}
