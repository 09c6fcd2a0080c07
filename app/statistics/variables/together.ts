// Crosstalk and return loss together: a cord conforms if both margins do, whatever the correlation between them.
import { riskOf } from '../check.ts'
import { acceptanceByVariables, acceptanceByVariablesKnownSigma } from './acceptance.ts'
import { designVariables, designVariablesKnownSigma, type TwoRisks, type VariablesPlan } from './design.ts'
import { fractionBelow, type MarginEvidence } from './fraction-below.ts'

/** Whether the standard deviations of both margins are known beforehand or estimated from the sample. */
export type Sigma = 'known' | 'unknown'

/** A plan that both margins of a sample must pass, and the fraction below the limit in each. */
export type TrialOfTwo = VariablesPlan & { sigma: Sigma; fractions: readonly [number, number] }

/** Probability that both pass: the least and the most any dependence allows, and the value if they are independent. */
export type AcceptanceOfTwo = { least: number; independent: number; most: number }

/**
 * Probability that a lot passes the same plan by variables on two parameters.
 *
 * @param plan sampleSize and k as for `acceptanceByVariables`; `fractions` below the limit in the first and the second, 0 to 1
 * @returns probabilities; the true one lies from `least` to `most` whatever the dependence
 * @throws RangeError that names the argument out of range
 *
 * Source: bounds of M. Fréchet (1935): P₁ + P₂ − 1 and 0 below, the smaller of both above.
 *
 * @example acceptanceOnBoth({ sampleSize: 28, k: 1.82, sigma: 'unknown', fractions: [0.01, 0.01] }) // 0.904 to 0.952, and 0.906 where they are independent
 */
export function acceptanceOnBoth({ sigma, fractions, sampleSize, k }: TrialOfTwo): AcceptanceOfTwo {
  const acceptance = sigma === 'known' ? acceptanceByVariablesKnownSigma : acceptanceByVariables
  const first = acceptance({ sampleSize, k, fraction: fractions[0] })
  const second = acceptance({ sampleSize, k, fraction: fractions[1] })
  return {
    least: Math.max(0, first + second - 1),
    independent: first * second,
    most: Math.min(first, second),
  }
}

/**
 * Smallest plan of this kind that keeps both risks on two parameters, whatever the correlation between them.
 *
 * The fractions are of cords short in either parameter. Of a lot with p₂ such cords one parameter has p₂ ÷ 2 at least,
 * so the consumer is safe at half the fraction; of a lot with p₁ each has p₁ at most, so the producer is at half the risk.
 *
 * @param risks as for `designVariables`; half of the consumer's fraction must still be above the producer's
 * @throws RangeError that names the argument out of range; fractions named there are those of one parameter
 *
 * Source: the inequalities of Boole and Bonferroni.
 */
export function designVariablesOnBoth(sigma: Sigma, { producer, consumer }: TwoRisks): VariablesPlan {
  const design = sigma === 'known' ? designVariablesKnownSigma : designVariables
  return design({
    producer: { fraction: producer.fraction, risk: producer.risk / 2 },
    consumer: { fraction: consumer.fraction / 2, risk: consumer.risk },
  })
}

/**
 * Bounds on the fraction of cords below the limit in either of two margins, whatever the correlation between them.
 *
 * The upper bound adds those of both margins, each with half of the risk; the lower one is the larger of both, each with
 * half of the risk. The estimate, the sum of both, is the most the estimates allow: cords short in both count twice.
 *
 * @param first evidence of one margin; both at the same confidence
 * @param second evidence of the other
 * @returns fractions from 0 to 1
 * @throws RangeError that names the argument out of range, or confidences that differ
 *
 * Source: the inequality of Bonferroni.
 */
export function fractionBelowEither(first: MarginEvidence, second: MarginEvidence) {
  if (first.confidence !== second.confidence)
    throw new RangeError(
      `confidence must be the same for both margins, not ${first.confidence} and ${second.confidence}`,
    )
  const confidence = 1 - riskOf(first.confidence) / 2
  const one = fractionBelow({ ...first, confidence })
  const other = fractionBelow({ ...second, confidence })
  return {
    estimate: Math.min(1, one.estimate + other.estimate),
    lower: Math.max(one.lower, other.lower),
    upper: Math.min(1, one.upper + other.upper),
  }
}
