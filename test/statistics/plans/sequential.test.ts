// Sequential and multiple plans: Wald's published lines, exact risks, and no earlier truncation or smaller sample that keeps them.
import { describe, expect, test } from 'vitest'
import { exceeds } from '../../../app/statistics/check.ts'
import { type Law, lawOfLot, lawOfProcess } from '../../../app/statistics/plans/law.ts'
import { lineNumbers, sequentialLines } from '../../../app/statistics/plans/lines.ts'
import {
  acceptanceOfLot,
  acceptanceOfProcess,
  averageSampleSizeOfProcess,
  outcomesUnder,
} from '../../../app/statistics/plans/measures.ts'
import { designMultipleForLot, designMultipleForProcess, multiplePlan } from '../../../app/statistics/plans/multiple.ts'
import { checkStages, type Stages } from '../../../app/statistics/plans/plan.ts'
import {
  designSequentialForLot,
  designSequentialForProcess,
  sequentialPlan,
} from '../../../app/statistics/plans/sequential.ts'
import { sevenOfThirteen } from './published.ts'

const handbook = { producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.1, risk: 0.1 } }
const lot = { lotSize: 480, producer: { nonconforming: 5, risk: 0.05 }, consumer: { nonconforming: 24, risk: 0.1 } }

function verdicts(plan: Stages, law: Law): { accepted: number; rejected: number } {
  const sums = { accepted: 0, rejected: 0 }
  for (const { accepted, rejected } of outcomesUnder(plan, law)) {
    sums.accepted += accepted
    sums.rejected += rejected
  }
  return sums
}

function keeps(plan: Stages, good: Law, bad: Law): boolean {
  return !exceeds(verdicts(plan, good).rejected, 0.05) && !exceeds(verdicts(plan, bad).accepted, 0.1)
}

describe("Wald's lines", () => {
  // Source: NIST/SEMATECH e-Handbook 6.2.6 (READ); Montgomery and Wald (1947) from memory, to the digits they print.
  test.each([
    { ...handbook, accept: 0.939, reject: 1.205, slope: 0.0397, source: 'the e-Handbook' },
    {
      producer: { fraction: 0.01, risk: 0.05 },
      consumer: { fraction: 0.06, risk: 0.1 },
      accept: 1.22,
      reject: 1.57,
      slope: 0.028,
      source: 'Montgomery',
    },
    {
      producer: { fraction: 0.1, risk: 0.02 },
      consumer: { fraction: 0.3, risk: 0.03 },
      accept: 2.58,
      reject: 2.88,
      slope: 0.186,
      source: 'Wald (1947)',
    },
  ])('are those of $source', ({ producer, consumer, accept, reject, slope }) => {
    const lines = sequentialLines({ producer, consumer })
    expect(Math.abs(lines.acceptIntercept - accept)).toBeLessThan(0.005)
    expect(Math.abs(lines.rejectIntercept - reject)).toBeLessThan(0.005)
    expect(Math.abs(lines.slope - slope)).toBeLessThan(0.0005)
  })

  test('accept and reject where the e-Handbook 6.2.6 says', () => {
    const lines = sequentialLines(handbook)
    const accepts = [24, 49, 74, 100, 125]
    for (const [found, n] of accepts.entries()) {
      expect(lineNumbers(lines, n).acceptanceNumber).toBe(found)
      expect(lineNumbers(lines, n - 1).acceptanceNumber).toBe(found - 1)
    }
    const lastBefore = [19, 45, 70, 95, 120]
    for (const [i, n] of lastBefore.entries()) expect(lineNumbers(lines, n).rejectionNumber).toBe(i + 2)
    for (const [i, n] of lastBefore.entries()) expect(lineNumbers(lines, n + 1).rejectionNumber).toBe(i + 3)
  })

  test('are refused for qualities and risks that they cannot separate', () => {
    const { producer, consumer } = handbook
    expect(() => sequentialLines({ producer: consumer, consumer: producer })).toThrow('producer.fraction must be below')
    expect(() => sequentialLines({ producer: { fraction: 0, risk: 0.05 }, consumer })).toThrow('producer.fraction')
    expect(() => sequentialLines({ producer, consumer: { fraction: 1, risk: 0.1 } })).toThrow('consumer.fraction')
    const careless = { producer: { fraction: 0.01, risk: 0.6 }, consumer: { fraction: 0.1, risk: 0.5 } }
    expect(() => designSequentialForProcess(careless)).toThrow('must sum to less than 1')
  })
})

describe('sequential plans', () => {
  // Source: with few truncated paths Wald's average at p = 0 and p = 1 is exact: 24 units accept, 2 reject (e-Handbook 6.2.6).
  test('test 24 units where none fail and 2 where all do', () => {
    const plan = designSequentialForProcess(handbook)
    expect(averageSampleSizeOfProcess(plan, 0)).toBe(24)
    expect(averageSampleSizeOfProcess(plan, 1)).toBe(2)
    const averages = [0.01, 0.1].map((fraction) => averageSampleSizeOfProcess(plan, fraction))
    // Wald's approximations, which ignore the overshoot: 27.96 and 16.45.
    expect(averages[0]).toBeGreaterThan(27)
    expect(averages[1]).toBeGreaterThan(16)
  })

  test.each([
    { law: 'process', plan: designSequentialForProcess(handbook), lines: handbook },
    {
      law: 'lot',
      plan: designSequentialForLot(lot),
      lines: { producer: { fraction: 5 / 480, risk: 0.05 }, consumer: { fraction: 24 / 480, risk: 0.1 } },
    },
  ])('keep both risks of a $law exactly, and no earlier truncation does', ({ law, plan, lines }) => {
    const good = law === 'lot' ? lawOfLot({ lotSize: 480, nonconforming: 5 }) : lawOfProcess(0.01)
    const bad = law === 'lot' ? lawOfLot({ lotSize: 480, nonconforming: 24 }) : lawOfProcess(0.1)
    checkStages(plan)
    expect(keeps(plan, good, bad)).toBe(true)
    const last = plan.stages.length
    const acceptanceNumber = plan.stages.at(-1)?.acceptanceNumber ?? 0
    for (let truncation = 1; truncation <= last; truncation++) {
      const end = lineNumbers(sequentialLines(lines), truncation)
      const most = truncation === last ? acceptanceNumber - 1 : end.rejectionNumber - 1
      for (let c = end.acceptanceNumber; c <= most; c++)
        expect(keeps(sequentialPlan({ ...lines, truncation, acceptanceNumber: c }), good, bad)).toBe(false)
    }
  })

  // Source: scenario of an invented supplier worked by hand on the e-Handbook's lines: fails at tests 7 and 15 reject at 15.
  test('reject at the fifteenth unit when the seventh and the fifteenth fail', () => {
    const { stages } = designSequentialForProcess(handbook)
    const found = (n: number) => (n >= 15 ? 2 : n >= 7 ? 1 : 0)
    const end = stages.find(
      ({ sampleSize, acceptanceNumber, rejectionNumber }) =>
        found(sampleSize) <= acceptanceNumber || found(sampleSize) >= rejectionNumber,
    )
    expect(end?.sampleSize).toBe(15)
  })

  test('are refused beyond 10,000 units and off their lines', () => {
    const numbers = { truncation: 100, acceptanceNumber: 4 }
    expect(sequentialPlan({ ...handbook, ...numbers }).stages).toHaveLength(100)
    expect(() => sequentialPlan({ ...handbook, ...numbers, truncation: 10_001 })).toThrow('truncation')
    expect(() => sequentialPlan({ ...handbook, ...numbers, acceptanceNumber: 9 })).toThrow('acceptanceNumber')
    const close = { producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.0101, risk: 0.1 } }
    expect(() => designSequentialForProcess(close)).toThrow('take the single plan')
  })
})

describe('multiple plans', () => {
  test('are built from equal samples: 46 CFR 160.066-12, seven of 13', () => {
    const numbers = sevenOfThirteen.stages.map(({ acceptanceNumber, rejectionNumber }) => ({
      acceptanceNumber,
      rejectionNumber,
    }))
    expect(multiplePlan({ sampleSize: 13, numbers })).toEqual({ kind: 'multiple', ...sevenOfThirteen })
    expect(() => multiplePlan({ sampleSize: 13, numbers: [...numbers, ...numbers] })).toThrow('samples')
  })

  test.each([2, 3, 7])('of %i samples keep both risks, and no smaller samples on the lines do', (samples) => {
    const plan = designMultipleForProcess({ ...handbook, samples })
    const good = lawOfProcess(0.01)
    const bad = lawOfProcess(0.1)
    expect(keeps(plan, good, bad)).toBe(true)
    expect(acceptanceOfProcess(plan, 0.01)).toBeGreaterThanOrEqual(0.95)
    const lines = sequentialLines(handbook)
    const size = plan.stages[0]?.sampleSize ?? 0
    for (let sampleSize = 1; sampleSize < size; sampleSize++) {
      const numbers = Array.from({ length: samples }, (_, i) => lineNumbers(lines, sampleSize * (i + 1)))
      const end = numbers.pop()
      for (let c = end?.acceptanceNumber ?? 0; c < (end?.rejectionNumber ?? 0); c++) {
        const all = [...numbers, { acceptanceNumber: c, rejectionNumber: c + 1 }]
        expect(keeps(multiplePlan({ sampleSize, numbers: all }), good, bad)).toBe(false)
      }
    }
  })

  test('of a lot keep both risks by the hypergeometric law', () => {
    const plan = designMultipleForLot({ ...lot, samples: 7 })
    expect(acceptanceOfLot(plan, { lotSize: 480, nonconforming: 5 })).toBeGreaterThanOrEqual(0.95)
    expect(acceptanceOfLot(plan, { lotSize: 480, nonconforming: 24 })).toBeLessThanOrEqual(0.1)
    expect(() => designMultipleForLot({ ...lot, samples: 8 })).toThrow('samples must be a whole number from 2 to 7')
  })
})
