// The mid-P interval on a fraction: closer to the stated confidence than the exact one, but not always above it.
import { riskOf } from '../check.ts'
import { atMost, moreThan } from '../distributions/beta.ts'
import { checkEvidence, type Interval, type SampleEvidence } from './fraction.ts'
import { fractionWhere } from './fraction-where.ts'

/**
 * Two-sided mid-P interval on the fraction nonconforming: the observed count weighs half in each tail.
 *
 * It covers the true fraction in about `confidence` of samples on average; for single fractions it can fall short.
 *
 * @param sampleSize units tested, n ≥ 0
 * @param found nonconforming units among them, 0 ≤ d ≤ n
 * @param confidence two-sided confidence level, 0 < confidence < 1; half of the risk on each side
 * @returns `lower` is 0 at d = 0, `upper` is 1 at d = n
 * @throws RangeError that names the argument out of range
 *
 * Source: H. O. Lancaster (1961), J. Amer. Statist. Assoc. 56, 223–234; as an interval A. Agresti (2002), Categorical
 * Data Analysis, section 1.4.5 (both from memory).
 *
 * @example midPInterval({ sampleSize: 80, found: 2, confidence: 0.95 }) // 0.00421 to 0.08014
 */
export function midPInterval(evidence: SampleEvidence): Interval {
  checkEvidence(evidence)

  const { sampleSize, found, confidence } = evidence
  const risk = riskOf(confidence) / 2
  if (sampleSize === 0) return { lower: 0, upper: 1 }
  if (found === 0) return { lower: 0, upper: -Math.expm1(Math.log(2 * risk) / sampleSize) }
  if (found === sampleSize) return { lower: Math.exp(Math.log(2 * risk) / sampleSize), upper: 1 }
  // Half of P(X = d) and all beyond it is the mean of P(X ≤ d) and P(X < d), both tails of beta distributions.
  const upTo = { a: found + 1, b: sampleSize - found }
  const below = { a: found, b: sampleSize - found + 1 }
  const low = (fraction: number) => (moreThan(fraction, upTo) + moreThan(fraction, below)) / 2
  const high = (fraction: number) => (atMost(fraction, upTo) + atMost(fraction, below)) / 2
  return {
    lower: fractionWhere({ tail: high, rest: low, risk, confidence: 1 - risk }),
    upper: fractionWhere({ tail: low, rest: high, risk, confidence: 1 - risk }),
  }
}
