// A margin that most cords exceed, said with confidence from a few measured ones.
import { between, count, openProbability, riskOf } from '../check.ts'
import { quantile } from '../distributions/noncentral-t.ts'
import * as normal from '../distributions/normal.ts'

/** How many margins are measured, which share of all is to be covered, and how surely. */
export type ToleranceTask = { sampleSize: number; coverage: number; confidence: number }

/**
 * One-sided tolerance factor for normal margins, the standard deviation being estimated from the sample.
 *
 * Mean − k·s lies below at least `coverage` of all margins in `confidence` of samples.
 *
 * @param sampleSize margins measured, n ≥ 2
 * @param coverage share of the population, 0 < coverage < 1
 * @param confidence 0 < confidence < 1
 * @returns k = t'(confidence; n − 1, z(coverage)√n) ÷ √n
 * @throws RangeError that names the argument out of range
 *
 * Source: D. B. Owen (1968), Technometrics 10, 445–478 (from memory); exact, by the noncentral t.
 *
 * @example toleranceFactor({ sampleSize: 10, coverage: 0.95, confidence: 0.95 }) // 2.911
 */
export function toleranceFactor({ sampleSize, coverage, confidence }: ToleranceTask): number {
  count('sampleSize', sampleSize, 2)
  openProbability('coverage', coverage)
  openProbability('confidence', confidence)

  const root = Math.sqrt(sampleSize)
  const law = { degreesOfFreedom: sampleSize - 1, noncentrality: normal.quantile(coverage) * root }
  if (confidence <= 0.5) return quantile(confidence, law) / root
  // By the mirror image, so that a confidence next to 1 keeps the digits of its risk.
  return -quantile(riskOf(confidence), { ...law, noncentrality: -law.noncentrality }) / root
}

/** A sample of margins by its mean and standard deviation (n − 1 in it), both in dB, and what is to be said of all. */
export type ToleranceEvidence = ToleranceTask & { mean: number; standardDeviation: number }

/**
 * Lower tolerance bound: the margin that at least `coverage` of all cords exceed, with `confidence`; in dB.
 *
 * @param evidence mean from −1e6 to 1e6 dB, standardDeviation from 1e-9 to 1e9 dB; the rest as for {@link toleranceFactor}
 * @throws RangeError that names the argument out of range
 *
 * @example toleranceBound({ mean: 4.2, standardDeviation: 1.1, sampleSize: 10, coverage: 0.95, confidence: 0.95 }) // 0.998 dB
 */
export function toleranceBound({ mean, standardDeviation, ...task }: ToleranceEvidence): number {
  between('mean', mean, -1e6, 1e6)
  between('standardDeviation', standardDeviation, 1e-9, 1e9)

  return mean - toleranceFactor(task) * standardDeviation
}
