// Bounds and estimates after an early stop, against recomputed published plans and an enumeration of all paths.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { curtailed } from '../../../app/statistics/bounds/curtailed.ts'
import { upperBoundOfFraction } from '../../../app/statistics/bounds/fraction.ts'
import {
  lowerBoundInLotAfter,
  lowerBoundOfFractionAfter,
  upperBoundInLotAfter,
  upperBoundOfFractionAfter,
} from '../../../app/statistics/bounds/stopped.ts'
import { unbiasedFractionAfter } from '../../../app/statistics/bounds/unbiased.ts'
import type { Stages } from '../../../app/statistics/plans/plan.ts'
import { publishedRows } from '../../published/rows.ts'
import { endsOf, ofLot, ofProcess } from './paths.ts'

const plan = (...stages: [number, number, number][]): Stages => ({
  stages: stages.map(([sampleSize, acceptanceNumber, rejectionNumber]) => ({
    sampleSize,
    acceptanceNumber,
    rejectionNumber,
  })),
})

const double5050 = plan([50, 0, 2], [100, 1, 2])
const double8080 = plan([80, 0, 3], [160, 3, 4])

// Bounds of 95 % each side and the unbiased estimate for every end. Source: rows of test/published, in exact fractions.
const recomputed = publishedRows(
  'stagewise-',
  z.object({
    plan: z.array(z.object({ sampleSize: z.number(), acceptanceNumber: z.number(), rejectionNumber: z.number() })),
  }),
  z.array(
    z.object({ stage: z.number(), found: z.number(), lower95: z.number(), upper95: z.number(), umvue: z.number() }),
  ),
)

// Ends named in the literature's form, as printed in the notes that go with those rows.
const named = [
  { plan: double5050, stage: 2, found: 1, upper: 0.06064308831, plain: 0.04655981 },
  { plan: double8080, stage: 2, found: 3, upper: 0.04896242318, plain: 0.04774467 },
]

// Tested until the r-th nonconforming unit, which was the n-th: lower qbeta(.05, r, n − r + 1), upper qbeta(.95, r, n − r),
// estimate (r − 1) ÷ (n − 1), J. B. S. Haldane (1945); from memory, recomputed in base R.
const inverse = [
  { r: 1, n: 10, lower: 0.0051161969, upper: 0.2831288356, unbiased: 0 },
  { r: 1, n: 50, lower: 0.0010253399, upper: 0.0593060142, unbiased: 0 },
  { r: 2, n: 37, lower: 0.009689703, upper: 0.1251162048, unbiased: 1 / 36 },
  { r: 2, n: 80, lower: 0.0044600792, upper: 0.0586446303, unbiased: 1 / 79 },
  { r: 3, n: 125, lower: 0.0065727623, upper: 0.0499001712, unbiased: 2 / 124 },
  { r: 5, n: 40, lower: 0.0505703283, upper: 0.2195230683, unbiased: 4 / 39 },
  { r: 10, n: 200, lower: 0.0273742535, upper: 0.0775923336, unbiased: 9 / 199 },
]

/** Wald's lines for 1 and 10 % at risks 5 and 10 % (NIST e-Handbook 6.2.6), cut at 75 units with 3 allowed. */
const sequential = plan(
  ...Array.from({ length: 75 }, (_, index): [number, number, number] => {
    const n = index + 1
    if (n === 75) return [75, 3, 4]
    return [n, Math.max(-1, Math.floor(0.0397474 * n - 0.938862)), Math.ceil(0.0397474 * n + 1.205379)]
  }),
)

const enumerated = [
  { name: 'double 12/12', plan: plan([12, 0, 3], [24, 2, 3]) },
  { name: 'multiple of three', plan: plan([8, -1, 2], [16, 1, 4], [24, 3, 4]) },
  { name: 'single, stopped at rejection', plan: curtailed(plan([20, 1, 2]), 'at rejection') },
  { name: 'single, stopped at either verdict', plan: curtailed(plan([20, 1, 2]), 'at either verdict') },
  { name: 'double, stopped at either verdict', plan: curtailed(plan([10, 0, 3], [20, 2, 3]), 'at either verdict') },
  { name: 'sequential', plan: sequential },
]

describe('bounds and estimates after a plan that may stop early', () => {
  test('five published plans have rows to be checked against', () => expect(recomputed).toHaveLength(5))

  test.each(recomputed)('$id: every end has its bounds and estimate', ({ input, recomputed: ends }) => {
    for (const { stage, found, lower95, upper95, umvue } of ends) {
      const end = { plan: { stages: input.plan }, stage, found, confidence: 0.95 }
      const where = `stage ${stage}, found ${found}`
      expect(Math.abs(upperBoundOfFractionAfter(end) - upper95), where).toBeLessThanOrEqual(1e-11 * upper95)
      expect(Math.abs(lowerBoundOfFractionAfter(end) - lower95), where).toBeLessThanOrEqual(1e-11 * lower95)
      expect(Math.abs(unbiasedFractionAfter(end) - umvue), where).toBeLessThanOrEqual(1e-11 * umvue)
    }
  })

  test.each(named)('the plain bound after $found is wrong by its own plan', ({ upper, plain, ...end }) => {
    expect(upperBoundOfFractionAfter({ ...end, confidence: 0.95 })).toBeCloseTo(upper, 10)
    const tested = end.plan.stages[end.stage - 1]?.sampleSize ?? 0
    expect(upperBoundOfFraction({ sampleSize: tested, found: end.found, confidence: 0.95 })).toBeCloseTo(plain, 8)
  })

  test.each(inverse)('tested until number $r, which was unit $n', ({ r, n, lower, upper, unbiased }) => {
    const untilRejection = curtailed(plan([400, r - 1, r]), 'at rejection')
    const end = { plan: untilRejection, stage: n, found: r, confidence: 0.95 }
    expect(upperBoundOfFractionAfter(end)).toBeCloseTo(upper, 9)
    expect(lowerBoundOfFractionAfter(end)).toBeCloseTo(lower, 9)
    expect(unbiasedFractionAfter(end)).toBeCloseTo(unbiased, 12)
  })

  test('a single plan has the bounds of its sample size', () => {
    for (const found of [0, 1, 2, 19, 20])
      expect(upperBoundOfFractionAfter({ plan: plan([20, 1, 2]), stage: 1, found, confidence: 0.9 })).toBeCloseTo(
        upperBoundOfFraction({ sampleSize: 20, found, confidence: 0.9 }),
        13,
      )
  })

  // Source: every path of the plan, counted unit by unit in paths.ts.
  test.each(enumerated)('$name: bounds cover every fraction as often as they say', ({ plan }) => {
    const ends = endsOf(plan)
    const bounds = ends.map((end) => ({
      upper: upperBoundOfFractionAfter({ plan, ...end, confidence: 0.9 }),
      lower: lowerBoundOfFractionAfter({ plan, ...end, confidence: 0.9 }),
    }))
    const fractions = bounds.flatMap(({ upper, lower }) => [upper, lower])
    for (const p of fractions.flatMap((bound) => [bound * (1 - 1e-9), bound * (1 + 1e-9)])) {
      if (p <= 0 || p >= 1) continue
      const chance = ends.map((end) => ofProcess(end, p))
      const share = (holds: (i: number) => boolean) => chance.reduce((sum, each, i) => sum + (holds(i) ? each : 0), 0)
      expect(share(() => true)).toBeCloseTo(1, 10)
      expect(
        share((i) => bounds[i]!.upper >= p),
        `upper at ${p}`,
      ).toBeGreaterThan(0.9 - 1e-7)
      expect(
        share((i) => bounds[i]!.lower <= p),
        `lower at ${p}`,
      ).toBeGreaterThan(0.9 - 1e-7)
    }
  })

  test.each(enumerated)('$name: bounds on a lot of 80 cover every number in it', ({ plan }) => {
    const ends = endsOf(plan)
    const bounds = ends.map((end) => ({
      upper: upperBoundInLotAfter({ plan, ...end, lotSize: 80, confidence: 0.9 }),
      lower: lowerBoundInLotAfter({ plan, ...end, lotSize: 80, confidence: 0.9 }),
    }))
    for (let nonconforming = 0; nonconforming <= 80; nonconforming++) {
      const chance = ends.map((end) => ofLot(end, 80, nonconforming))
      const share = (holds: (i: number) => boolean) => chance.reduce((sum, each, i) => sum + (holds(i) ? each : 0), 0)
      expect(share(() => true)).toBeCloseTo(1, 10)
      expect(
        share((i) => bounds[i]!.upper >= nonconforming),
        `upper at ${nonconforming}`,
      ).toBeGreaterThan(0.9 - 1e-9)
      expect(
        share((i) => bounds[i]!.lower <= nonconforming),
        `lower at ${nonconforming}`,
      ).toBeGreaterThan(0.9 - 1e-9)
    }
  })

  test.each(enumerated)('$name: the estimate is unbiased, found ÷ tested is not', ({ plan }) => {
    const ends = endsOf(plan)
    for (const p of [1 / 7, 0.02, 0.6]) {
      const mean = ends.reduce((sum, end) => sum + ofProcess(end, p) * unbiasedFractionAfter({ plan, ...end }), 0)
      expect(mean).toBeCloseTo(p, 11)
      const naive = ends.reduce((sum, end) => sum + (ofProcess(end, p) * end.found) / end.tested, 0)
      expect(Math.abs(naive - p)).toBeGreaterThan(1e-6)
    }
    const ofUnits = ends.reduce((sum, end) => sum + ofLot(end, 80, 9) * unbiasedFractionAfter({ plan, ...end }), 0)
    expect(80 * ofUnits).toBeCloseTo(9, 9)
  })

  test.each([
    [{ stage: 0, found: 0 }, 'stage must be a whole number from 1 to 2, not 0'],
    [{ stage: 3, found: 0 }, 'stage must be a whole number from 1 to 2, not 3'],
    [{ stage: 1, found: 1 }, 'found must be at most 0 or at least 2 at the end of stage 1, not 1'],
    [{ stage: 2, found: 0 }, 'found must be a whole number from 1 to 51, not 0'],
    [{ stage: 2, found: 52 }, 'found must be a whole number from 1 to 51, not 52'],
    [{ stage: 2, found: Number.NaN }, 'found must be a whole number from 1 to 51, not NaN'],
  ])('an end that the plan does not have is refused: %o', (end, message) => {
    for (const bound of [upperBoundOfFractionAfter, lowerBoundOfFractionAfter])
      expect(() => bound({ plan: double5050, ...end, confidence: 0.95 })).toThrow(message)
    for (const bound of [upperBoundInLotAfter, lowerBoundInLotAfter])
      expect(() => bound({ plan: double5050, lotSize: 500, ...end, confidence: 0.95 })).toThrow(message)
    expect(() => unbiasedFractionAfter({ plan: double5050, ...end })).toThrow(message)
  })

  test('a lot smaller than the plan, a confidence of 1 and a plan that is none are refused', () => {
    const end = { plan: double5050, stage: 2, found: 1 }
    expect(() => upperBoundInLotAfter({ ...end, lotSize: 99, confidence: 0.9 })).toThrow('sampleSize of stage 2')
    expect(() => upperBoundOfFractionAfter({ ...end, confidence: 1 })).toThrow('confidence must be above 0 and below 1')
    expect(() => curtailed(plan([10, 0, 2]), 'at rejection')).toThrow('rejectionNumber of stage 1')
  })
})
