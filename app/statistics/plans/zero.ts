// Zero-acceptance plans: the smallest clean sample that a lot or process with too many seldom shows.
import { count, exceeds, openProbability } from '../check.ts'
import { density } from '../distributions/hypergeometric.ts'
import { leastInteger } from '../search.ts'
import type { Plan } from './plan.ts'
import { singlePlan } from './single.ts'

/** The plan that tests so many and accepts only if none is nonconforming. */
export function zeroPlan(sampleSize: number): Plan {
  return { ...singlePlan({ sampleSize, acceptanceNumber: 0 }), kind: 'zero-acceptance' }
}

/**
 * Smallest sample size with which a lot with `nonconforming` units too many is accepted at most as often as the risk says.
 *
 * @param lotSize N ≥ 1 units
 * @param nonconforming D, from 1 to N: the number that is too many
 * @param risk consumer's risk in (0, 1); equality counts as met: of 100 units with 1 nonconforming at risk 0.1 it is 90, not 91
 * @throws RangeError that names the argument out of range
 *
 * Source: C(N − D, n) / C(N, n) ≤ risk, as in the NIST/SEMATECH e-Handbook 6.2.3 for acceptance number 0.
 *
 * @example designZeroForLot({ lotSize: 480, nonconforming: 5, risk: 0.05 }) // 216
 */
export function designZeroForLot(requirements: { lotSize: number; nonconforming: number; risk: number }): number {
  const { lotSize, nonconforming, risk } = requirements
  count('lotSize', lotSize, 1)
  count('nonconforming', nonconforming, 1, lotSize)
  openProbability('risk', risk)

  // With D units more than remain untested, one of them is always found.
  const certain = lotSize - nonconforming + 1
  return leastInteger(1, certain, (sampleSize) => !exceeds(density(0, { lotSize, nonconforming, sampleSize }), risk))
}

/**
 * Smallest sample size with which a process with this fraction nonconforming shows a clean sample at most as often as the risk says.
 *
 * @param fraction above 0, at most 1
 * @param risk consumer's risk in (0, 1); equality counts as met
 * @throws RangeError that names the argument out of range, or a fraction so small that no whole number is exact enough
 * @example designZeroForProcess({ fraction: 0.05, risk: 0.05 }) // 59
 */
export function designZeroForProcess({ fraction, risk }: { fraction: number; risk: number }): number {
  if (!(fraction > 0 && fraction <= 1)) throw new RangeError(`fraction must be above 0 and at most 1, not ${fraction}`)
  openProbability('risk', risk)

  const clean = (sampleSize: number) => Math.exp(sampleSize * Math.log1p(-fraction))
  const about = Math.ceil(Math.log(risk) / Math.log1p(-fraction))
  if (about > Number.MAX_SAFE_INTEGER)
    throw new RangeError(`fraction must be at least ${-Math.log(risk) / Number.MAX_SAFE_INTEGER}, not ${fraction}`)
  return leastInteger(Math.max(1, about - 2), about + 2, (sampleSize) => !exceeds(clean(sampleSize), risk))
}
