// Single plans: one sample, one acceptance number; and the smallest of them for two risks.
import { count, openProbability } from '../check.ts'
import type { LotRisk, Plan, ProcessRisk } from './plan.ts'
import { checkStages } from './plan.ts'
import { lotTail, processTail } from './tail.ts'
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
export function designSingleForLot(requirements: {
  lotSize: number
  producer: LotRisk
  consumer: LotRisk
}): PlanNumbers {
  const { lotSize, producer, consumer } = requirements
  checkLotRisks(requirements)

  const conforming = (point: LotRisk) => ({ nonconforming: lotSize - point.nonconforming, risk: point.risk })
  return producer.nonconforming + consumer.nonconforming <= lotSize
    ? smallestForLot(lotSize, producer, consumer)
    : mirrored(smallestForLot(lotSize, conforming(consumer), conforming(producer)))
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
export function designSingleForProcess(requirements: { producer: ProcessRisk; consumer: ProcessRisk }): PlanNumbers {
  const { producer, consumer } = requirements
  checkProcessRisks(requirements)

  const conforming = (point: ProcessRisk) => ({ fraction: 1 - point.fraction, risk: point.risk })
  const plan =
    producer.fraction + consumer.fraction <= 1
      ? smallestForProcess(producer, consumer)
      : mirrored(smallestForProcess(conforming(consumer), conforming(producer)))
  if (plan.sampleSize === Number.MAX_SAFE_INTEGER)
    throw new RangeError(`consumer.fraction must be larger for a whole number of units, not ${consumer.fraction}`)
  return plan
}

/** Refuses, by a RangeError that names it, a risk outside (0, 1), and a producer's lot that is not better than the consumer's. */
export function checkLotRisks(requirements: { lotSize: number; producer: LotRisk; consumer: LotRisk }): void {
  const { lotSize, producer, consumer } = requirements
  count('lotSize', lotSize, 1)
  count('consumer.nonconforming', consumer.nonconforming, 1, lotSize)
  count('producer.nonconforming', producer.nonconforming, 0, consumer.nonconforming - 1)
  openProbability('producer.risk', producer.risk)
  openProbability('consumer.risk', consumer.risk)
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

function smallestForLot(N: number, producer: LotRisk, consumer: LotRisk): PlanNumbers {
  const good = producer.nonconforming
  const bad = consumer.nonconforming
  const zConsumer = deviate(consumer.risk)
  const zProducer = deviate(producer.risk)
  return smallestPlan({
    producersRisk: producer.risk,
    consumersRisk: consumer.risk,
    most: N,
    acceptance: lotTail({ lotSize: N, nonconforming: bad }, -1, consumer.risk),
    rejection: lotTail({ lotSize: N, nonconforming: good }, 1, producer.risk),
    // Wise (1954): hypergeometric tails are nearly binomial with p = (2D − c) / (2N − n + 1).
    guessSampleSize: (c) => {
      const m = poissonMean(c, zConsumer)
      return (m * ((2 * N + 1) / (2 * bad - c) - 0.5) + c / 2) / (1 + m / (2 * bad - c))
    },
    guessAcceptanceNumber: (n) => guessNumber((n * good) / N, (1 - good / N) * Math.max(0, 1 - n / N), zProducer),
  })
}

function smallestForProcess(producer: ProcessRisk, consumer: ProcessRisk): PlanNumbers {
  const good = producer.fraction
  const bad = consumer.fraction
  const zConsumer = deviate(consumer.risk)
  const zProducer = deviate(producer.risk)
  return smallestPlan({
    producersRisk: producer.risk,
    consumersRisk: consumer.risk,
    most: Number.MAX_SAFE_INTEGER,
    acceptance: processTail(bad, -1, consumer.risk),
    rejection: processTail(good, 1, producer.risk),
    guessSampleSize: (c) => poissonMean(c, zConsumer) * (1 / bad - 0.5) + c / 2,
    guessAcceptanceNumber: (n) => guessNumber(n * good, 1 - good, zProducer),
  })
}

/**
 * To accept at most c nonconforming of n is to refuse at most n − c − 1 conforming. With mostly nonconforming units
 * the smallest plan is the one that tells the two conforming numbers apart, producer and consumer exchanged.
 */
function mirrored({ sampleSize, acceptanceNumber }: PlanNumbers): PlanNumbers {
  return { sampleSize, acceptanceNumber: sampleSize - 1 - acceptanceNumber }
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

/** About the normal deviate above which `risk` lies: Abramowitz & Stegun 26.2.23, good to 0.0005, where a guess is enough. */
function deviate(risk: number): number {
  const t = Math.sqrt(-2 * Math.log(Math.min(risk, 1 - risk)))
  const z = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)))
  return risk < 0.5 ? z : -z
}
