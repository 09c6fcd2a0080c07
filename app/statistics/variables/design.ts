// The smallest plan by variables that keeps both risks.
import { openProbability } from '../check.ts'
import { atMost, quantile } from '../distributions/noncentral-t.ts'
import * as normal from '../distributions/normal.ts'
import type { ProcessRisk } from '../plans/plan.ts'
import { leastInteger } from '../search.ts'

/** Two fractions of margins below the limit, and how often a verdict at each may be wrong. */
export type TwoRisks = { producer: ProcessRisk; consumer: ProcessRisk }

/** Margins to measure, and how many standard deviations their mean must lie above the limit. */
export type VariablesPlan = { sampleSize: number; k: number }

const largestSample = 100_000_000

/**
 * Smallest plan by variables for one lower limit, the standard deviation being estimated from the sample.
 *
 * @param producer fraction below the limit that should rarely be rejected, and how rarely; both between 0 and 1
 * @param consumer fraction, above the producer's, that should rarely be accepted, and how rarely; both between 0 and 1
 * @returns the smallest n ≥ 2 for which some k keeps both risks, and the smallest such k: it meets the consumer's exactly
 * @throws RangeError that names the argument out of range, or that the fractions are so near that n would exceed 1e8
 *
 * Source: noncentral t as in `acceptanceByVariables`; the search starts from W. A. Wallis's normal approximation (1947, from memory).
 *
 * @example designVariables({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.08, risk: 0.1 } })
 *   // 28 margins, k = 1.817; by attributes it would take 64 cords
 */
export function designVariables(risks: TwoRisks): VariablesPlan {
  checkRisks(risks)

  const constantFor = (sampleSize: number) => {
    const root = Math.sqrt(sampleSize)
    // The upper quantile by its mirror image, so that a small risk keeps its digits.
    const law = { degreesOfFreedom: sampleSize - 1, noncentrality: normal.quantile(risks.consumer.fraction) * root }
    return -quantile(risks.consumer.risk, law) / root
  }
  const keepsProducer = (sampleSize: number) => {
    const root = Math.sqrt(sampleSize)
    const law = { degreesOfFreedom: sampleSize - 1, noncentrality: -normal.quantile(risks.producer.fraction) * root }
    return atMost(constantFor(sampleSize) * root, law) <= risks.producer.risk * (1 + 1e-12)
  }
  const sampleSize = leastNear(approximateSize(risks), keepsProducer)
  return { sampleSize, k: constantFor(sampleSize) }
}

/**
 * Smallest plan by variables for one lower limit, the standard deviation of the margins being known.
 *
 * @param risks as for {@link designVariables}
 * @returns the smallest n ≥ 1 for which some k keeps both risks, and the smallest such k
 * @throws RangeError as {@link designVariables}
 *
 * Formula: n = ((z(α) + z(β)) ÷ (z(p₁) − z(p₂)))², rounded up; k = z(p₂) + z(β) ÷ √n.
 */
export function designVariablesKnownSigma(risks: TwoRisks): VariablesPlan {
  checkRisks(risks)

  const { apart, spread } = distances(risks)
  const exact = Math.max(0, spread / apart) ** 2
  const sampleSize = Math.max(1, Math.ceil(exact * (1 - 1e-12)))
  const { fraction, risk } = risks.consumer
  return { sampleSize, k: -normal.quantile(fraction) - normal.quantile(risk) / Math.sqrt(sampleSize) }
}

function checkRisks({ producer, consumer }: TwoRisks): void {
  openProbability('producer.fraction', producer.fraction)
  openProbability('producer.risk', producer.risk)
  openProbability('consumer.fraction', consumer.fraction)
  openProbability('consumer.risk', consumer.risk)
  if (consumer.fraction <= producer.fraction)
    throw new RangeError(
      `consumer.fraction must be above producer.fraction ${producer.fraction}, not ${consumer.fraction}`,
    )
  if (approximateSize({ producer, consumer }) > largestSample)
    throw new RangeError(
      `consumer.fraction must be farther above producer.fraction ${producer.fraction} for a sample of at most ${largestSample}, not ${consumer.fraction}`,
    )
}

/** How far the two fractions lie apart in standard deviations, and the two risks' quantiles together. */
function distances({ producer, consumer }: TwoRisks): { apart: number; spread: number } {
  return {
    apart: normal.quantile(consumer.fraction) - normal.quantile(producer.fraction),
    spread: -normal.quantile(producer.risk) - normal.quantile(consumer.risk),
  }
}

function approximateSize(risks: TwoRisks): number {
  const { apart, spread } = distances(risks)
  const middle = (normal.quantile(risks.producer.fraction) + normal.quantile(risks.consumer.fraction)) / 2
  return Math.max(2, Math.round(Math.max(0, spread / apart) ** 2 * (1 + middle ** 2 / 2)))
}

/** Smallest sample size of at least 2 that holds, sought outwards from a good guess, as each trial costs an integral. */
function leastNear(guess: number, holds: (sampleSize: number) => boolean): number {
  let step = Math.max(1, Math.ceil(guess / 64))
  if (holds(guess)) {
    let low = guess
    while (low > 2 && holds(Math.max(2, low - step))) {
      low = Math.max(2, low - step)
      step *= 2
    }
    return leastInteger(Math.max(2, low - step), low, holds)
  }
  let low = guess
  while (!holds(low + step)) {
    low += step
    step *= 2
  }
  return leastInteger(low + 1, low + step, holds)
}
