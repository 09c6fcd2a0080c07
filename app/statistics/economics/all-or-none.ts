// The rule for a process that does not vary: test every unit or none, never a sample.
import { between, probability } from '../check.ts'
import type { Costs } from './costs.ts'

/**
 * The fraction nonconforming at which testing a unit costs as much as letting it through: test ÷ escape.
 *
 * @param costs test at least 0, escape above 0, in the same money
 * @returns above 1 where testing costs more than any escape; a comparison with the process says which side it is on
 * @throws RangeError that names the cost out of range
 *
 * Source: W. E. Deming, Out of the Crisis (1986), ch. 15, k1/k2 (from memory).
 *
 * @example breakEvenFraction({ test: 1.2, escape: 60 }) // 0.02
 */
export function breakEvenFraction(costs: Pick<Costs, 'test' | 'escape'>): number {
  between('costs.test', costs.test, 0, Number.MAX_VALUE)
  between('costs.escape', costs.escape, Number.MIN_VALUE, Number.MAX_VALUE)

  return costs.test / costs.escape
}

/** What a process that keeps between two fractions asks for. */
export type AllOrNone = 'test none' | 'test every unit' | 'depends on the lot'

/**
 * Test none where even the worst lot to come is below the break-even fraction, every unit where even the best is above it. For
 * a steady process what is found in a sample tells nothing about the untested rest (Mood's theorem), so no sample
 * is ever cheapest. Where lots lie on both sides, sampling may find out which side a lot is on: see `optimalPlan`.
 *
 * @param range the best and the worst fraction nonconforming to come, 0 ≤ lowest ≤ highest ≤ 1
 * @throws RangeError that names the argument out of range
 *
 * Source: Deming (1986), ch. 15; A. M. Mood (1943), Annals of Mathematical Statistics 14, 415–425 (both from memory).
 *
 * @example allOrNone({ test: 1.2, escape: 60 }, { lowest: 0.005, highest: 0.015 }) // 'test none'
 */
export function allOrNone(
  costs: Pick<Costs, 'test' | 'escape'>,
  { lowest, highest }: { readonly lowest: number; readonly highest: number },
): AllOrNone {
  const breakEven = breakEvenFraction(costs)
  probability('lowest', lowest)
  probability('highest', highest)
  if (lowest > highest) throw new RangeError(`lowest must be at most highest (${highest}), not ${lowest}`)

  if (highest <= breakEven) return 'test none'
  return lowest >= breakEven ? 'test every unit' : 'depends on the lot'
}
