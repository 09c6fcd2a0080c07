// The smallest single plan for two risks: no smaller one exists, in lots and processes of every sort.
import { describe, expect, test } from 'vitest'
import { exceeds } from '../../../app/statistics/check.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'
import { designSingleForLot, designSingleForProcess, singlePlan } from '../../../app/statistics/plans/single.ts'
import { numbersFrom } from './numbers-from.ts'

const risks = [
  { producer: 0.05, consumer: 0.1 },
  { producer: 0.3, consumer: 0.3 },
  { producer: 0.01, consumer: 0.5 },
  { producer: 0.7, consumer: 0.7 },
  { producer: 1e-9, consumer: 1e-9 },
]

type Two = { producer: { risk: number }; consumer: { risk: number } }
type Chances = { rejection(n: number, c: number): number; acceptance(n: number, c: number): number; most: number }

/** Every sample size from 1, and for each every acceptance number that keeps the producer's risk, from the smallest. */
function bruteForce({ producer, consumer }: Two, { rejection, acceptance, most }: Chances) {
  let least = 0
  for (let n = 1; n <= most; n++) {
    while (exceeds(rejection(n, least), producer.risk)) least++
    if (!exceeds(acceptance(n, least), consumer.risk)) return { sampleSize: n, acceptanceNumber: least }
  }
  throw new Error('no plan up to the largest sample size')
}

function inLot(lotSize: number, good: number, bad: number): Chances {
  return {
    rejection: (n, c) => hypergeometric.moreThan(c, { lotSize, nonconforming: good, sampleSize: n }),
    acceptance: (n, c) => hypergeometric.atMost(c, { lotSize, nonconforming: bad, sampleSize: n }),
    most: lotSize,
  }
}

function ofProcess(good: number, bad: number): Chances {
  return {
    rejection: (n, c) => binomial.moreThan(c, { sampleSize: n, fraction: good }),
    acceptance: (n, c) => binomial.atMost(c, { sampleSize: n, fraction: bad }),
    most: 100_000,
  }
}

// Source: brute force over every smaller sample size with every acceptance number.
describe('the smallest single plan', () => {
  test('of every small lot, for every pair of qualities', () => {
    for (const lotSize of [1, 2, 3, 7, 16, 25])
      for (let bad = 1; bad <= lotSize; bad++)
        for (let good = 0; good < bad; good++)
          for (const risk of risks) {
            const producer = { nonconforming: good, risk: risk.producer }
            const consumer = { nonconforming: bad, risk: risk.consumer }
            const found = designSingleForLot({ lotSize, producer, consumer })
            expect(found, `${good} and ${bad} of ${lotSize}`).toEqual(
              bruteForce({ producer, consumer }, inLot(lotSize, good, bad)),
            )
          }
  })

  test('of larger lots with qualities near and far', () => {
    const next = numbersFrom(4)
    for (let i = 0; i < 300; i++) {
      const lotSize = 100 + Math.floor(next() * 4000)
      const bad = 1 + Math.floor(next() * lotSize * (i % 2 === 0 ? 1 : 0.1))
      const good = Math.floor(next() * bad * 0.97)
      const risk = risks[i % risks.length] ?? { producer: 0.05, consumer: 0.1 }
      const producer = { nonconforming: good, risk: risk.producer }
      const consumer = { nonconforming: bad, risk: risk.consumer }
      const found = designSingleForLot({ lotSize, producer, consumer })
      expect(found, `${good} and ${bad} of ${lotSize}`).toEqual(
        bruteForce({ producer, consumer }, inLot(lotSize, good, bad)),
      )
    }
  })

  test('of processes with qualities near and far', () => {
    const next = numbersFrom(5)
    for (let i = 0; i < 300; i++) {
      const bad = [0.1 + 0.9 * next(), 0.002 + next() * 0.1, 0.001 + next() * 0.01, 1 - next() * 0.05][i % 4] ?? 0.5
      const good = bad * next() * 0.8
      const risk = risks[i % 4] ?? { producer: 0.05, consumer: 0.1 }
      const producer = { fraction: good, risk: risk.producer }
      const consumer = { fraction: bad, risk: risk.consumer }
      const found = designSingleForProcess({ producer, consumer })
      expect(found, `${good} and ${bad}`).toEqual(bruteForce({ producer, consumer }, ofProcess(good, bad)))
    }
  })

  test('of qualities so close that it allows hundreds', () => {
    const producer = { fraction: 0.05, risk: 0.05 }
    const consumer = { fraction: 0.06, risk: 0.1 }
    expect(designSingleForProcess({ producer, consumer })).toEqual(
      bruteForce({ producer, consumer }, ofProcess(producer.fraction, consumer.fraction)),
    )
  })

  test('of a lot of ten million keeps its risks where one unit or one number less does not', () => {
    const lotSize = 10_000_000
    for (const [good, bad] of [
      [100_000, 110_000],
      [100, 300],
      [4_999_000, 5_004_000],
    ] as const) {
      const producer = { nonconforming: good, risk: 0.05 }
      const consumer = { nonconforming: bad, risk: 0.1 }
      const { sampleSize: n, acceptanceNumber: c } = designSingleForLot({ lotSize, producer, consumer })
      const { rejection, acceptance } = inLot(lotSize, good, bad)
      expect(rejection(n, c)).toBeLessThanOrEqual(0.05)
      expect(acceptance(n, c)).toBeLessThanOrEqual(0.1)
      expect(acceptance(n - 1, c)).toBeGreaterThan(0.1)
      expect(rejection(n, c - 1)).toBeGreaterThan(0.05)
    }
  })

  test('tests every unit where one nonconforming unit more makes the difference', () => {
    const requirements = {
      lotSize: 40,
      producer: { nonconforming: 7, risk: 0.01 },
      consumer: { nonconforming: 8, risk: 0.01 },
    }
    expect(designSingleForLot(requirements)).toEqual({ sampleSize: 40, acceptanceNumber: 7 })
  })

  test('counts equality with a risk as met', () => {
    // By hand: 90 of 100 units find the only nonconforming one with chance 0.9, and an empty lot is never rejected.
    const requirements = {
      lotSize: 100,
      producer: { nonconforming: 0, risk: 0.05 },
      consumer: { nonconforming: 1, risk: 0.1 },
    }
    expect(designSingleForLot(requirements)).toEqual({ sampleSize: 90, acceptanceNumber: 0 })
    // By hand: half of all units conform, and two of them in a row come in a quarter of draws.
    const half = { producer: { fraction: 0, risk: 0.05 }, consumer: { fraction: 0.5, risk: 0.25 } }
    expect(designSingleForProcess(half)).toEqual({ sampleSize: 2, acceptanceNumber: 0 })
  })
})

describe('an impossible wish is refused by name', () => {
  const producer = { nonconforming: 5, risk: 0.05 }
  const consumer = { nonconforming: 24, risk: 0.1 }
  test.each([
    { requirements: { lotSize: 0, producer, consumer }, says: 'lotSize must be a whole number of at least 1, not 0' },
    {
      requirements: { lotSize: 20, producer, consumer },
      says: 'consumer.nonconforming must be a whole number from 1 to 20',
    },
    { requirements: { lotSize: 480, producer: consumer, consumer }, says: 'producer.nonconforming' },
    { requirements: { lotSize: 480, producer: { ...producer, risk: 0 }, consumer }, says: 'producer.risk' },
    { requirements: { lotSize: 480, producer, consumer: { ...consumer, risk: 1 } }, says: 'consumer.risk' },
    {
      requirements: { lotSize: 480, producer, consumer: { ...consumer, nonconforming: 2.5 } },
      says: 'consumer.nonconforming',
    },
    { requirements: { lotSize: Number.NaN, producer, consumer }, says: 'lotSize' },
  ])('$says', ({ requirements, says }) => {
    expect(() => designSingleForLot(requirements)).toThrow(RangeError)
    expect(() => designSingleForLot(requirements)).toThrow(says)
  })

  test('for a process', () => {
    const good = { fraction: 0.01, risk: 0.05 }
    const requirements = (fraction: number) => () =>
      designSingleForProcess({ producer: good, consumer: { fraction, risk: 0.1 } })
    expect(requirements(0.01)).toThrow('producer.fraction must be from 0 to below consumer.fraction (0.01), not 0.01')
    expect(requirements(1.5)).toThrow('consumer.fraction')
    const clean = { fraction: 0, risk: 0.05 }
    const rare = () => designSingleForProcess({ producer: clean, consumer: { fraction: 1e-300, risk: 0.1 } })
    expect(rare).toThrow('consumer.fraction must be larger for a whole number of units')
    const half = { fraction: 0.5, risk: 0.05 }
    const near = () => designSingleForProcess({ producer: half, consumer: { fraction: 0.5000001, risk: 0.1 } })
    expect(near).toThrow('producer and consumer must differ more')
    expect(requirements(Number.NaN)).toThrow('consumer.fraction')
  })
})

test('a single plan is a list of one stage', () => {
  expect(singlePlan({ sampleSize: 50, acceptanceNumber: 1 })).toEqual({
    kind: 'single',
    stages: [{ sampleSize: 50, acceptanceNumber: 1, rejectionNumber: 2 }],
  })
})
