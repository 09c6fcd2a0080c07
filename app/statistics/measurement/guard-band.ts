// What a reading in dB says of the true margin, and the guard band that keeps a wanted risk.
import { between, openProbability } from '../check.ts'
import { atMost, quantile } from '../distributions/normal.ts'

/** Margins of the cords a supplier makes, in dB, as far as known before the reading: a normal distribution. */
export type MarginPrior = { mean: number; standardDeviation: number }

/**
 * A reading of a margin in dB (positive is better than the limit) and the tester's standard uncertainty, one standard
 * deviation in dB. Accuracies are mostly stated as two: ± 1 dB at the limit is an uncertainty of 0.5.
 */
export type Reading = { margin: number; uncertainty: number; prior?: MarginPrior | undefined }

/**
 * Chance that the true margin is 0 dB or better, given the reading.
 *
 * The tester's error is normal and without bias. Without a prior every true margin counts as equally likely before the
 * reading. For a rejected cord this is the producer's specific risk.
 *
 * @param margin reading in dB, −1e6 to 1e6
 * @param uncertainty standard uncertainty in dB, 1e-9 to 1e9
 * @param prior mean in dB, −1e6 to 1e6; standardDeviation in dB, 1e-9 to 1e9
 * @returns a probability, exact in its own tail
 * @throws RangeError that names the argument out of range
 *
 * Source: JCGM 106:2012, clause 7 (normal prior and measurement; from memory).
 *
 * @example chanceConforming({ margin: 0.3, uncertainty: 0.5 }) // 0.7257: a reading of +0.3 dB ± 1 dB is no proof
 */
export function chanceConforming(reading: Reading): number {
  return atMost(standardized(reading))
}

/**
 * Chance that the true margin is below 0 dB, given the reading: for an accepted cord the consumer's specific risk.
 *
 * @throws RangeError that names the argument out of range
 */
export function chanceNonconforming(reading: Reading): number {
  return atMost(-standardized(reading))
}

/** What the tester can do, the risk that is tolerated, and what is known of the margins beforehand. */
export type GuardBandTask = { uncertainty: number; consumersRisk: number; prior?: MarginPrior | undefined }

/**
 * Guard band for a wanted risk: the least reading at which the chance of a true margin below 0 dB is no more than that.
 *
 * Without a prior it is the uncertainty times a normal quantile: 1.645 for 5 %. A good supplier's margins make it
 * smaller, also negative.
 *
 * @param uncertainty standard uncertainty in dB, 1e-9 to 1e9
 * @param consumersRisk specific risk that is tolerated, 0 < risk < 1
 * @param prior as for {@link chanceConforming}
 * @returns dB to be read above the limit
 * @throws RangeError that names the argument out of range
 *
 * Source: JCGM 106:2012, clause 8 (from memory), solved for the reading.
 *
 * @example guardBandFor({ uncertainty: 0.5, consumersRisk: 0.05 }) // 0.822 dB
 */
export function guardBandFor({ uncertainty, consumersRisk, prior }: GuardBandTask): number {
  checkUncertainty(uncertainty, prior)
  openProbability('consumersRisk', consumersRisk)

  const z = -quantile(consumersRisk)
  if (!prior) return z * uncertainty
  const ratio = uncertainty / prior.standardDeviation
  return z * uncertainty * Math.hypot(1, ratio) - prior.mean * ratio * ratio
}

/** Mean of the true margin, given the reading, in its own standard deviations. */
function standardized({ margin, uncertainty, prior }: Reading): number {
  between('margin', margin, -1e6, 1e6)
  checkUncertainty(uncertainty, prior)

  if (!prior) return margin / uncertainty
  const ratio = uncertainty / prior.standardDeviation
  return (margin + prior.mean * ratio * ratio) / (uncertainty * Math.hypot(1, ratio))
}

/** Refuses an uncertainty or a prior that is none; the wide ranges keep every quotient a number. */
export function checkUncertainty(uncertainty: number, prior: MarginPrior | undefined): void {
  between('uncertainty', uncertainty, 1e-9, 1e9)
  if (!prior) return
  between('prior.mean', prior.mean, -1e6, 1e6)
  between('prior.standardDeviation', prior.standardDeviation, 1e-9, 1e9)
}
