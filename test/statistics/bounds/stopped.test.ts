// Bounds and estimates after an early stop, against recomputed published plans and an enumeration of all paths.
import { describe, expect, test } from 'vitest'
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
const simon10 = plan([10, 1, 11], [29, 5, 6])
const simon13 = plan([13, 3, 14], [43, 12, 13])
// 46 CFR 160.066-12, lot 281–500 (read): seven samples of 13.
const multiple = plan([13, -1, 4], [26, 1, 6], [39, 3, 8], [52, 5, 10], [65, 7, 11], [78, 10, 12], [91, 13, 14])

// Stage, found, lower and upper one-sided 95 % bound, unbiased estimate. Source: solved in exact fractions, checked in base R by uniroot for
// 1/100 and 3/160; rule of Jennison & Turnbull (1983), from memory; the Simon plans are his of 1989, from memory.
const recomputed: [string, Stages, number, number, number, number, number][] = [
  ['double 50/50', double5050, 1, 0, 0, 0.05815507912, 0],
  ['double 50/50', double5050, 2, 1, 0.001025339867, 0.06064308831, 1 / 50],
  ['double 50/50', double5050, 2, 2, 0.004137575246, 0.06608344992, 1 / 50],
  ['double 50/50', double5050, 2, 3, 0.006364104293, 0.07227684763, 1 / 50],
  ['double 80/80', double8080, 2, 1, 0.0006409606767, 0.03832913857, 1 / 80],
  ['double 80/80', double8080, 2, 2, 0.002584861025, 0.04298542058, 159 / 9560],
  ['double 80/80', double8080, 2, 3, 0.005381354956, 0.04896242318, 3 / 160],
  ['double 80/80', double8080, 2, 4, 0.007984183973, 0.05482287522, 21 / 1048],
  ['Simon 1/10, 5/29', simon10, 1, 1, 0.005116196892, 0.3941633024, 1 / 10],
  ['Simon 1/10, 5/29', simon10, 2, 5, 0.08067079889, 0.4007357702, 5533 / 22789],
  ['Simon 1/10, 5/29', simon10, 2, 6, 0.1015047937, 0.4126794093, 7221 / 27634],
  ['Simon 1/10, 5/29', simon10, 2, 9, 0.1746820261, 0.4869290118, 233271 / 705139],
  ['Simon 3/13, 12/43', simon13, 1, 3, 0.06604956722, 0.4946497302, 3 / 13],
  ['multiple 7×13', multiple, 2, 0, 0, 0.1088303558, 0],
  ['multiple 7×13', multiple, 2, 1, 0.001970874287, 0.169831223, 1 / 26],
  ['multiple 7×13', multiple, 3, 3, 0.02359487748, 0.1953681447, 25 / 273],
  ['multiple 7×13', multiple, 4, 5, 0.0434212371, 0.2057376023, 13075 / 114616],
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
  test.each(recomputed)(
    '%s: bounds and estimate of a published plan',
    (_, plan, stage, found, lower, upper, unbiased) => {
      const end = { plan, stage, found, confidence: 0.95 }
      expect(Math.abs(upperBoundOfFractionAfter(end) / upper - 1)).toBeLessThan(1e-9)
      expect(Math.abs(lowerBoundOfFractionAfter(end) - lower)).toBeLessThan(1e-9 * lower + 1e-12)
      expect(Math.abs(unbiasedFractionAfter(end) - unbiased)).toBeLessThan(1e-12)
    },
  )

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
