// Single plans: one sample, one acceptance number; and the smallest of them for two risks.
import { count, openProbability } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import * as hypergeometric from '../distributions/hypergeometric.ts'
import * as normal from '../distributions/normal.ts'
import type { LotRisk, Plan, ProcessRisk } from './plan.ts'
import { checkStages } from './plan.ts'
import { type PlanNumbers, smallestPlan } from './two-points.ts'

/** The plan with these numbers; throws RangeError unless 0 ≤ sampleSize and −1 ≤ acceptanceNumber, both whole. */
export function singlePlan({ sampleSize, acceptanceNumber }: PlanNumbers): Plan {
  const plan = {
    kind: 'single',
    stages: [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }],
  }
  checkStages(plan)
  return plan
}

/**
 * Smallest single plan for a lot in hand: the least sample size, then the least acceptance number, with which a lot of
 * the producer's quality is rejected, and one of the consumer's accepted, at most as often as their risks say. Equality
 * counts as met. Where nothing smaller does, it tests every unit.
 *
 * @param lotSize N ≥ 1 units
 * @param producer a lot good enough: 0 ≤ nonconforming < the consumer's, risk in (0, 1)
 * @param consumer a lot too bad: nonconforming up to lotSize, risk in (0, 1)
 * @throws RangeError that names the argument out of range
 *
 * Source: the two-point design as in the NIST/SEMATECH e-Handbook 6.2.3, with the hypergeometric law; minimality is
 * proven in `smallestPlan` and by brute force in the test.
 *
 * @example designSingleForLot({ lotSize: 480, producer: { nonconforming: 5, risk: 0.05 },
 *   consumer: { nonconforming: 24, risk: 0.1 } }) // { sampleSize: 123, acceptanceNumber: 3 }
 */
export function designSingleForLot(wish: { lotSize: number; producer: LotRisk; consumer: LotRisk }): PlanNumbers {
  const { lotSize, producer, consumer } = wish
  count('lotSize', lotSize, 1)
  count('consumer.nonconforming', consumer.nonconforming, 1, lotSize)
  count('producer.nonconforming', producer.nonconforming, 0, consumer.nonconforming - 1)
  openProbability('producer.risk', producer.risk)
  openProbability('consumer.risk', consumer.risk)

  const N = lotSize
  const D = consumer.nonconforming
  const fraction = producer.nonconforming / N
  const zConsumer = normal.quantile(1 - consumer.risk)
  const zProducer = normal.quantile(1 - producer.risk)
  return smallestPlan({
    producersRisk: producer.risk,
    consumersRisk: consumer.risk,
    most: lotSize,
    acceptance: ({ sampleSize, acceptanceNumber }) =>
      hypergeometric.atMost(acceptanceNumber, { lotSize, nonconforming: D, sampleSize }),
    rejection: ({ sampleSize, acceptanceNumber }) =>
      hypergeometric.moreThan(acceptanceNumber, { lotSize, nonconforming: producer.nonconforming, sampleSize }),
    drop: ({ sampleSize: n, acceptanceNumber: c }) =>
      (hypergeometric.density(c, { lotSize, nonconforming: D, sampleSize: n }) * (D - c)) / (N - n),
    // Wise (1954): hypergeometric tails are nearly binomial with p = (2D − c) / (2N − n + 1).
    guessSampleSize: (c) => {
      const m = poissonMean(c, zConsumer)
      return (m * ((2 * N + 1) / (2 * D - c) - 0.5) + c / 2) / (1 + m / (2 * D - c))
    },
    guessAcceptanceNumber: (n) => guessNumber(n * fraction, ((1 - fraction) * (N - n)) / N, zProducer),
  })
}

/**
 * Smallest single plan for a process: as `designSingleForLot`, with fractions nonconforming and the binomial law.
 *
 * @param producer 0 ≤ fraction < the consumer's, risk in (0, 1)
 * @param consumer fraction up to 1, risk in (0, 1)
 * @throws RangeError that names the argument out of range
 * @example designSingleForProcess({ producer: { fraction: 0.01, risk: 0.05 },
 *   consumer: { fraction: 0.05, risk: 0.1 } }) // { sampleSize: 132, acceptanceNumber: 3 }
 */
export function designSingleForProcess(wish: { producer: ProcessRisk; consumer: ProcessRisk }): PlanNumbers {
  const { producer, consumer } = wish
  checkProcessRisks(wish)

  const p = consumer.fraction
  const zConsumer = normal.quantile(1 - consumer.risk)
  const zProducer = normal.quantile(1 - producer.risk)
  return smallestPlan({
    producersRisk: producer.risk,
    consumersRisk: consumer.risk,
    most: Number.MAX_SAFE_INTEGER,
    acceptance: ({ sampleSize, acceptanceNumber }) => binomial.atMost(acceptanceNumber, { sampleSize, fraction: p }),
    rejection: ({ sampleSize, acceptanceNumber }) =>
      binomial.moreThan(acceptanceNumber, { sampleSize, fraction: producer.fraction }),
    drop: ({ sampleSize, acceptanceNumber }) => p * binomial.density(acceptanceNumber, { sampleSize, fraction: p }),
    guessSampleSize: (c) => poissonMean(c, zConsumer) * (1 / p - 0.5) + c / 2,
    guessAcceptanceNumber: (n) => guessNumber(n * producer.fraction, 1 - producer.fraction, zProducer),
  })
}

/** Refuses, by a RangeError that names it, a risk outside (0, 1) and a producer's fraction not below the consumer's. */
export function checkProcessRisks({ producer, consumer }: { producer: ProcessRisk; consumer: ProcessRisk }): void {
  openProbability('producer.risk', producer.risk)
  openProbability('consumer.risk', consumer.risk)
  if (!(consumer.fraction > 0 && consumer.fraction <= 1))
    throw new RangeError(`consumer.fraction must be above 0 and at most 1, not ${consumer.fraction}`)
  if (!(producer.fraction >= 0 && producer.fraction < consumer.fraction))
    throw new RangeError(
      `producer.fraction must be from 0 to below consumer.fraction (${consumer.fraction}), not ${producer.fraction}`,
    )
}

/** About the Poisson mean at which `c` or fewer have the upper normal deviate z (Wilson & Hilferty 1931). */
function poissonMean(c: number, z: number): number {
  const k = c + 1
  return k * Math.max(0.01, 1 - 1 / (9 * k) + z / (3 * Math.sqrt(k))) ** 3
}

/** About the count that is exceeded with the upper normal deviate z, for a mean and the share of it that is variance. */
function guessNumber(mean: number, shrink: number, z: number): number {
  return mean + z * Math.sqrt(mean * shrink) + (z * z - 1) / 6 - 0.5
}
