// Double plans: a second sample where the first leaves doubt; and the one that tests the fewest units on average.
import { count } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import * as hypergeometric from '../distributions/hypergeometric.ts'
import { TooManySteps } from '../steps.ts'
import { type DoubleNumbers, type DoubleSearch, leastAverage } from './double-search.ts'
import type { LotRisk, Plan, ProcessRisk } from './plan.ts'
import { checkStages } from './plan.ts'
import { checkLotRisks, checkProcessRisks, designSingleForLot, designSingleForProcess } from './single.ts'
import { lotTail, processTail } from './tail.ts'

/** Units in both samples of a process, and in a lot. */
const longest = 10_000_000

/** Beyond this acceptance number of the single plan the search never keeps to its steps, so it does not begin. */
const mostToSearch = 150

/** Terms of sums that the search may look at: a tenth of a second or two. */
const mostSteps = 9_000_000

/**
 * The double plan of two samples: the first accepts up to `firstAcceptance`, rejects above `acceptanceNumber`, and
 * otherwise the second decides by both together.
 *
 * @throws RangeError that names the stage and its number out of range
 */
export function doublePlan({ firstSample, bothSamples, firstAcceptance, acceptanceNumber }: DoubleNumbers): Plan {
  const rejectionNumber = acceptanceNumber + 1
  const plan = {
    kind: 'double',
    stages: [
      { sampleSize: firstSample, acceptanceNumber: firstAcceptance, rejectionNumber },
      { sampleSize: bothSamples, acceptanceNumber, rejectionNumber },
    ],
  }
  checkStages(plan)
  return plan
}

/**
 * The double plan of least average sample size at the producer's quality that keeps both risks for a lot in hand.
 *
 * Of all double plans with one rejection number for both samples, a first sample that can accept, and both samples
 * finished once begun; equality with a risk counts as met.
 *
 * @param lotSize 2 ≤ N ≤ 10,000,000 units
 * @param producer a lot good enough: 0 ≤ nonconforming < the consumer's, risk in (0, 1)
 * @param consumer a lot too bad: nonconforming up to lotSize, risk in (0, 1)
 * @throws RangeError that names the argument out of range, or says that no double plan of the lot keeps both risks;
 *   TooManySteps where the qualities are too close to search: the smallest single plan allows more than 150, or the
 *   search looks at more than 9,000,000 terms
 *
 * Source: the criterion is common practice; minimality is proven by brute force in the test.
 *
 * @example designDoubleForLot({ lotSize: 480, producer: { nonconforming: 5, risk: 0.05 },
 *   consumer: { nonconforming: 24, risk: 0.1 } }) // first 74 units, accept up to 1, then 155 in all, accept up to 3
 */
export function designDoubleForLot(requirements: {
  lotSize: number
  producer: LotRisk
  consumer: LotRisk
}): DoubleNumbers {
  const { lotSize, producer, consumer } = requirements
  count('lotSize', lotSize, 2, longest)
  checkLotRisks(requirements)

  const counts = (D: number) => ({
    least: (n: number) => Math.max(0, n + D - lotSize),
    most: (n: number) => Math.min(n, D),
    density: (t: number, n: number) => hypergeometric.density(t, { lotSize, nonconforming: D, sampleSize: n }),
    perCount: (n: number, t: number) => ((D - t) * (n - t)) / ((t + 1) * (lotSize - D - n + t + 1)),
  })
  return found({
    risks: { producer: producer.risk, consumer: consumer.risk },
    single: designSingleForLot(requirements),
    most: lotSize,
    mostAccepted: consumer.nonconforming - 1,
    good: counts(producer.nonconforming),
    bad: counts(consumer.nonconforming),
    goodTail: lotTail({ lotSize, nonconforming: producer.nonconforming }, 1, producer.risk),
    badTail: lotTail({ lotSize, nonconforming: consumer.nonconforming }, -1, consumer.risk),
  })
}

/**
 * The double plan of least average sample size at the producer's quality that keeps both risks for a process: as
 * `designDoubleForLot`, with fractions nonconforming and the binomial law, and at most 10,000,000 units in both samples.
 *
 * @throws RangeError that names the argument out of range, or says that both samples would need more than 10,000,000 units
 * @example designDoubleForProcess({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.05, risk: 0.1 } })
 *   // first 60 units, accept up to 0, then 142 in all, accept up to 3
 */
export function designDoubleForProcess(requirements: { producer: ProcessRisk; consumer: ProcessRisk }): DoubleNumbers {
  const { producer, consumer } = requirements
  checkProcessRisks(requirements)

  const counts = (p: number) => ({
    least: () => 0,
    most: (n: number) => n,
    density: (t: number, n: number) => binomial.density(t, { sampleSize: n, fraction: p }),
    perCount: (n: number, t: number) => ((n - t) / (t + 1)) * (p / (1 - p)),
  })
  return found({
    risks: { producer: producer.risk, consumer: consumer.risk },
    single: designSingleForProcess(requirements),
    most: longest,
    mostAccepted: longest,
    good: counts(producer.fraction),
    bad: counts(consumer.fraction),
    goodTail: processTail(producer.fraction, 1, producer.risk),
    badTail: processTail(consumer.fraction, -1, consumer.risk),
  })
}

function found(sought: Omit<DoubleSearch, 'steps' | 'mostSteps'>): DoubleNumbers {
  const search = { ...sought, steps: 0, mostSteps }
  const allowed = search.single.acceptanceNumber
  if (allowed > mostToSearch)
    throw new TooManySteps(
      `consumer and producer must differ more: the single plan's acceptance number is ${allowed}, above ${mostToSearch}`,
    )
  const best = leastAverage(search)
  if (!best)
    throw new RangeError(
      `sample sizes must leave room for a second sample: no double plan within ${search.most} units keeps both risks`,
    )
  return best
}
