// The Jeffreys interval on a fraction: the middle part of the posterior under the beta prior (½, ½).
import { riskOf } from '../check.ts'
import { quantile, upperQuantile } from '../distributions/beta.ts'
import { checkEvidence, type Interval, type SampleEvidence } from './fraction.ts'

/**
 * Two-sided Jeffreys interval on the fraction nonconforming: the equal-tailed part of the beta (d + ½, n − d + ½).
 *
 * It covers the true fraction in about `confidence` of samples on average; for single fractions it can fall short.
 *
 * @param sampleSize units tested, n ≥ 0
 * @param found nonconforming units among them, 0 ≤ d ≤ n
 * @param confidence two-sided confidence level, 0 < confidence < 1; half of the risk on each side
 * @returns `lower` is 0 at d = 0, `upper` is 1 at d = n
 * @throws RangeError that names the argument out of range
 *
 * Source: L. D. Brown, T. T. Cai & A. DasGupta (2001), Statist. Sci. 16, 101–133, section 3.1.3 (from memory).
 *
 * @example jeffreysInterval({ sampleSize: 80, found: 2, confidence: 0.95 }) // 0.0052 to 0.0778
 */
export function jeffreysInterval(evidence: SampleEvidence): Interval {
  checkEvidence(evidence)

  const { sampleSize, found, confidence } = evidence
  const risk = riskOf(confidence) / 2
  const posterior = { a: found + 0.5, b: sampleSize - found + 0.5 }
  return {
    lower: found === 0 ? 0 : quantile(risk, posterior),
    upper: found === sampleSize ? 1 : upperQuantile(risk, posterior),
  }
}
