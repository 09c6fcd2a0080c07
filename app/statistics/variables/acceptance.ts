// How often a plan by variables accepts: the mean margin must lie k standard deviations above the limit.
import { between, count, probability } from '../check.ts'
import { moreThan } from '../distributions/noncentral-t.ts'
import { atMost, quantile } from '../distributions/normal.ts'

/** A sample of margins by its mean and standard deviation (its own, n − 1 in it, or the known one) and the limit, all in dB. */
export type MarginSummary = { mean: number; standardDeviation: number; limit: number; k: number }

/**
 * The verdict by variables: whether the mean lies at least k standard deviations above the limit.
 *
 * @param mean, limit −1e6 to 1e6 dB
 * @param standardDeviation 0 to 1e9 dB
 * @param k acceptance constant, −1e6 to 1e6
 * @throws RangeError that names the argument out of range
 *
 * @example acceptsByVariables({ mean: 4.2, standardDeviation: 1.1, limit: 1, k: 2.911 }) // false: 2.909 standard deviations
 */
export function acceptsByVariables({ mean, standardDeviation, limit, k }: MarginSummary): boolean {
  between('mean', mean, -1e6, 1e6)
  between('standardDeviation', standardDeviation, 0, 1e9)
  between('limit', limit, -1e6, 1e6)
  between('k', k, -1e6, 1e6)

  return mean - limit >= k * standardDeviation
}

/**
 * A plan by variables for one lower limit, and the fraction of margins below that limit. Accept if the mean of
 * `sampleSize` margins is at least `k` standard deviations above the limit.
 */
export type VariablesTrial = { sampleSize: number; k: number; fraction: number }

/**
 * Probability of acceptance by the k-method when the standard deviation is estimated from the sample (n − 1 in it).
 *
 * Stands on normal margins of one population: test that first, see `normality.ts`. A plan by variables can reject a lot
 * in which no tested cord failed.
 *
 * @param sampleSize margins measured, n ≥ 2
 * @param k acceptance constant, −1e6 to 1e6
 * @param fraction fraction of the margins below the limit, 0 to 1
 * @returns P(T' ≥ k√n), T' noncentral t with n − 1 degrees of freedom and noncentrality z√n, z = Φ⁻¹(1 − fraction)
 * @throws RangeError that names the argument out of range
 *
 * Source: the method of MIL-STD-414 and ISO 3951, sigma unknown (from memory); G. J. Resnikoff & G. J. Lieberman (1957).
 *
 * @example acceptanceByVariables({ sampleSize: 10, k: 1.72, fraction: 0.01 }) // 0.898
 */
export function acceptanceByVariables({ sampleSize, k, fraction }: VariablesTrial): number {
  count('sampleSize', sampleSize, 2)
  between('k', k, -1e6, 1e6)
  probability('fraction', fraction)

  if (fraction === 0 || fraction === 1) return 1 - fraction
  const root = Math.sqrt(sampleSize)
  return moreThan(k * root, { degreesOfFreedom: sampleSize - 1, noncentrality: -quantile(fraction) * root })
}

/**
 * Probability of acceptance by the k-method when the standard deviation of the margins is known: Φ(√n (z − k)).
 *
 * @param sampleSize margins measured, n ≥ 1
 * @param k acceptance constant, −1e6 to 1e6
 * @param fraction fraction of the margins below the limit, 0 to 1
 * @throws RangeError that names the argument out of range
 *
 * @example acceptanceByVariablesKnownSigma({ sampleSize: 8, k: 1.8, fraction: 0.02 }) // 0.764
 */
export function acceptanceByVariablesKnownSigma({ sampleSize, k, fraction }: VariablesTrial): number {
  count('sampleSize', sampleSize, 1)
  between('k', k, -1e6, 1e6)
  probability('fraction', fraction)

  if (fraction === 0 || fraction === 1) return 1 - fraction
  return atMost(Math.sqrt(sampleSize) * (-quantile(fraction) - k))
}
