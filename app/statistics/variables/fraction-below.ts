// The fraction of margins below the limit, from the mean and the spread of a few.
import { between, count, finite, openProbability, riskOf } from '../check.ts'
import { atMost as atMostOfBeta } from '../distributions/beta.ts'
import { atMost, moreThan } from '../distributions/noncentral-t.ts'
import * as normal from '../distributions/normal.ts'
import { rootBetween } from '../root.ts'

/** A sample of margins by its mean and standard deviation (n − 1 in it) and the limit, all in dB. */
export type MarginEvidence = {
  sampleSize: number
  mean: number
  standardDeviation: number
  limit: number
  confidence: number
}

/** The unbiased estimate of a fraction, and its one-sided bounds, each at the whole confidence. */
export type FractionBelow = { estimate: number; lower: number; upper: number }

/** Normal quantiles beyond this have no probability a number can hold. */
const farthest = 37

/**
 * Fraction of margins below the limit, estimated and bounded, the standard deviation being estimated from the sample.
 *
 * Stands on normal margins of one population: test that first, see `normality.ts`. The estimate is the one of least
 * variance without bias; put-in values Φ((limit − mean) ÷ s) are no bound.
 *
 * @param sampleSize margins measured, n ≥ 3
 * @param mean their mean, −1e6 to 1e6 dB
 * @param standardDeviation their standard deviation, 1e-9 to 1e9 dB
 * @param limit the limit the margins are judged against, −1e6 to 1e6 dB (0 where they are margins to the limit itself)
 * @param confidence of each bound by itself, 0 < confidence < 1
 * @returns fractions from 0 to 1; those below 1e-297 are given as that
 * @throws RangeError that names the argument out of range
 *
 * Source: bounds by the noncentral t, D. B. Owen (1968), Technometrics 10, 445–478 (from memory).
 *
 * @example fractionBelow({ sampleSize: 10, mean: 4.2, standardDeviation: 1.1, limit: 1, confidence: 0.95 }).upper // 0.0501
 */
export function fractionBelow(evidence: MarginEvidence): FractionBelow {
  const { sampleSize, mean, standardDeviation, limit, confidence } = evidence
  count('sampleSize', sampleSize, 3)
  between('mean', mean, -1e6, 1e6)
  between('standardDeviation', standardDeviation, 1e-9, 1e9)
  between('limit', limit, -1e6, 1e6)
  openProbability('confidence', confidence)

  const distance = (mean - limit) / standardDeviation
  const risk = riskOf(confidence)
  return {
    estimate: unbiasedFractionBelow(distance, sampleSize),
    lower: normal.atMost(-quantileSeenAbove(distance, sampleSize, confidence, risk)),
    upper: normal.atMost(-quantileSeenAbove(distance, sampleSize, risk, confidence)),
  }
}

/**
 * Unbiased estimate of least variance of the fraction below the limit: exactly 0 or 1 where no sample could lie so far off.
 *
 * @param distance (mean − limit) ÷ standard deviation, any number
 * @param sampleSize n ≥ 3
 * @throws RangeError that names the argument out of range
 *
 * Source: G. J. Lieberman & G. J. Resnikoff (1955), J. Amer. Statist. Assoc. 50, 457–516 (from memory).
 */
export function unbiasedFractionBelow(distance: number, sampleSize: number): number {
  finite('distance', distance)
  count('sampleSize', sampleSize, 3)

  const x = 0.5 - (distance * Math.sqrt(sampleSize)) / (sampleSize - 1) / 2
  const shape = sampleSize / 2 - 1
  return atMostOfBeta(Math.max(0, Math.min(1, x)), { a: shape, b: shape })
}

/** The z at which a sample of a population z standard deviations above the limit shows `distance` or more with this chance. */
function quantileSeenAbove(distance: number, sampleSize: number, chance: number, rest: number): number {
  const root = Math.sqrt(sampleSize)
  const t = Math.max(-1e15, Math.min(1e15, distance * root))
  const law = (z: number) => ({ degreesOfFreedom: sampleSize - 1, noncentrality: z * root })
  const excess = (z: number) =>
    chance < rest ? Math.log(moreThan(t, law(z)) / chance) : Math.log(rest / atMost(t, law(z)))
  if (excess(farthest) <= 0) return farthest
  return excess(-farthest) >= 0 ? -farthest : rootBetween(-farthest, farthest, excess)
}
