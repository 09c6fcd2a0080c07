// The score interval on a fraction: an approximation in closed form.
import { riskOf } from '../check.ts'
import { quantile } from '../distributions/normal.ts'
import { checkEvidence, type Interval, type SampleEvidence } from './fraction.ts'

/**
 * Two-sided score interval on the fraction nonconforming, without continuity correction.
 *
 * The fractions whose normal test statistic (p̂ − p) ÷ √(p(1 − p) ÷ n) is within ±z. An approximation: for fractions
 * near 0 its coverage can be well below `confidence`.
 *
 * @param sampleSize units tested, n ≥ 0
 * @param found nonconforming units among them, 0 ≤ d ≤ n
 * @param confidence two-sided confidence level, 0 < confidence < 1; half of the risk on each side
 * @returns `lower` is 0 at d = 0, `upper` is 1 at d = n
 * @throws RangeError that names the argument out of range
 *
 * Source: E. B. Wilson (1927), J. Amer. Statist. Assoc. 22, 209–212.
 *
 * @example wilsonInterval({ sampleSize: 200, found: 26, confidence: 0.95 }) // 0.0903 to 0.1837
 */
export function wilsonInterval(evidence: SampleEvidence): Interval {
  checkEvidence(evidence)

  const { sampleSize: n, found: d, confidence } = evidence
  const z = -quantile(riskOf(confidence) / 2)
  const middle = 2 * d + z * z
  const reach = z * Math.sqrt(z * z + 4 * d * ((n - d) / n))
  const whole = 2 * (n + z * z)
  if (n === 0) return { lower: 0, upper: 1 }
  // The two limits multiply to d² ÷ (n (n + z²)): dividing keeps the digits that middle − reach loses.
  return {
    lower: d === 0 ? 0 : (2 * d * (d / n)) / (middle + reach),
    upper: d === n ? 1 : (middle + reach) / whole,
  }
}
