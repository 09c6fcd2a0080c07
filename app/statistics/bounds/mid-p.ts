// The mid-P interval on a fraction: closer to the stated confidence than the exact one, but not always above it.
import { riskOf } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
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
  const low = (fraction: number) =>
    binomial.atMost(found - 1, { sampleSize, fraction }) + binomial.density(found, { sampleSize, fraction }) / 2
  const high = (fraction: number) =>
    binomial.moreThan(found, { sampleSize, fraction }) + binomial.density(found, { sampleSize, fraction }) / 2
  return {
    lower: found === 0 ? 0 : fractionWhere({ tail: high, rest: low, risk, confidence: 1 - risk }),
    upper: found === sampleSize ? 1 : fractionWhere({ tail: low, rest: high, risk, confidence: 1 - risk }),
  }
}
