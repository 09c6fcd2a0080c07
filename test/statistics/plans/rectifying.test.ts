// Rectifying inspection against the e-Handbook's table, closed forms, brute force and the published Dodge–Romig plans.
import { describe, expect, test } from 'vitest'
import { exceeds } from '../../../app/statistics/check.ts'
import { atMost } from '../../../app/statistics/distributions/hypergeometric.ts'
import { acceptanceCurveOfLot } from '../../../app/statistics/plans/curve.ts'
import { designForLotTolerance, designForOutgoingLimit } from '../../../app/statistics/plans/least-inspection.ts'
import { outgoingQualityLimit } from '../../../app/statistics/plans/outgoing-limit.ts'
import { fractionAtAcceptance, nonconformingAtAcceptance } from '../../../app/statistics/plans/quality-at.ts'
import { averageOutgoingQuality, averageTotalInspection } from '../../../app/statistics/plans/rectifying.ts'
import { numbersFrom } from './numbers-from.ts'
import { sevenOfThirteen, single, stagesOf } from './published.ts'

// Source: NIST/SEMATECH e-Handbook 6.2.3.2 (from memory), 52 units of 10,000, acceptance number 3. The table leaves
// (N − n)/N out of the outgoing quality; its text example keeps it: .930 × .03 × 9948 / 10000 = .02775.
const handbook = [
  { p: 0.02, quality: 0.0196, units: 253 },
  { p: 0.03, quality: 0.0278, units: 753 },
  { p: 0.04, quality: 0.0338, units: 1584 },
  { p: 0.05, quality: 0.0369, units: 2655 },
  { p: 0.06, quality: 0.0372, units: 3836 },
  { p: 0.07, quality: 0.0351, units: 5007 },
  { p: 0.08, quality: 0.0315, units: 6083 },
  { p: 0.09, quality: 0.027, units: 7012 },
  { p: 0.1, quality: 0.0223, units: 7779 },
  { p: 0.11, quality: 0.0178, units: 8388 },
  { p: 0.12, quality: 0.0138, units: 8854 },
]

describe('rectifying inspection', () => {
  test.each(handbook)('tests and ships what the e-Handbook prints at $p', ({ p, quality, units }) => {
    const supply = { fraction: p, lotSize: 10_000, replacement: true }
    expect(Math.abs(averageTotalInspection(single(52, 3), supply) - units)).toBeLessThan(1)
    const withoutFactor = averageOutgoingQuality(single(52, 3), supply) / (9948 / 10_000)
    expect(Math.abs(withoutFactor - quality)).toBeLessThan(0.0001)
  })

  test('ships the text example of the e-Handbook', () => {
    const supply = { fraction: 0.03, lotSize: 10_000, replacement: true }
    expect(averageOutgoingQuality(single(52, 3), supply)).toBeCloseTo(0.02775, 4)
  })

  // By hand: a lot that is accepted untested, one that is tested whole, and a process without a conforming unit.
  test('has its plain ends', () => {
    const supply = { fraction: 0.2, lotSize: 50, replacement: true }
    expect(averageTotalInspection(stagesOf(), supply)).toBe(0)
    expect(averageOutgoingQuality(stagesOf(), supply)).toBe(0.2)
    expect(averageOutgoingQuality(stagesOf(), { ...supply, replacement: false })).toBeCloseTo(0.2, 15)
    expect(averageTotalInspection(single(50, 3), supply)).toBeCloseTo(50, 12)
    expect(averageOutgoingQuality(single(50, 3), supply)).toBe(0)
    const nothing = { fraction: 1, lotSize: 50, replacement: false }
    expect(averageOutgoingQuality(single(10, 0), nothing)).toBe(0)
    expect(averageOutgoingQuality(stagesOf(), nothing)).toBe(1)
  })
})

describe('the average outgoing quality limit', () => {
  // Closed forms: with acceptance number 0, p(1 − p)ⁿ is greatest at 1/(n + 1), and p(1 − p)ⁿ⁻¹ (with removal) at 1/n.
  test.each([1, 8, 50, 400])('of %i units, none nonconforming, is where calculus puts it', (n) => {
    const lotSize = 1000
    const kept = outgoingQualityLimit(single(n, 0), { lotSize, replacement: true })
    expect(kept.fraction).toBeCloseTo(1 / (n + 1), 9)
    expect(kept.limit / (((1 / (n + 1)) * (n / (n + 1)) ** n * (lotSize - n)) / lotSize)).toBeCloseTo(1, 12)
    if (n > 1)
      expect(outgoingQualityLimit(single(n, 0), { lotSize, replacement: false }).fraction).toBeCloseTo(1 / n, 9)
  })

  // Source: factors y of MIL-STD-105E table V-A, AOQL = y/n by the Poisson law; large n and lot.
  test.each([
    { c: 0, y: 0.3679 },
    { c: 1, y: 0.84 },
    { c: 2, y: 1.3711 },
    { c: 3, y: 1.9424 },
    { c: 5, y: 3.168 },
    { c: 7, y: 4.472 },
    { c: 10, y: 6.528 },
    { c: 14, y: 9.398 },
    { c: 21, y: 14.66 },
  ])('has the factor $y with acceptance number $c', ({ c, y }) => {
    const { limit } = outgoingQualityLimit(single(100_000, c), { lotSize: 10_000_000_000, replacement: true })
    expect(Math.abs((limit * 100_000) / y - 1)).toBeLessThan(0.0004)
  })

  test('is the highest point of every scan, also with two humps', () => {
    const plans = [
      single(20, 2),
      single(50, 50),
      single(10, 9),
      sevenOfThirteen,
      stagesOf([3, 0, 4], [90, 1, 2]),
      stagesOf([5, -1, 6], [90, 12, 13]),
      stagesOf([10, 0, 2], [95, 20, 21]),
      stagesOf(),
    ]
    for (const plan of plans)
      for (const replacement of [true, false]) {
        const { limit, fraction } = outgoingQualityLimit(plan, { lotSize: 100, replacement })
        expect(averageOutgoingQuality(plan, { fraction, lotSize: 100, replacement })).toBe(limit)
        for (let i = 0; i <= 250; i++)
          expect(averageOutgoingQuality(plan, { fraction: i / 250, lotSize: 100, replacement })).toBeLessThanOrEqual(
            limit * (1 + 1e-14),
          )
      }
  })

  // By hand: n units, n − 1 of which may fail, removed: (N − n)p(1 − pⁿ) / (N(1 − p) + …) nears (N − n)n / (N + (N − n)n).
  test('may lie at the end of the scale, where nearly nothing conforms', () => {
    const { limit, fraction } = outgoingQualityLimit(single(10, 9), { lotSize: 100, replacement: false })
    expect(limit).toBeCloseTo((90 * 10) / (100 + 90 * 10), 9)
    expect(fraction).toBeCloseTo(1, 9)
  })

  test('of a lot tested whole is 0, at 0', () => {
    expect(outgoingQualityLimit(single(100, 3), { lotSize: 100, replacement: true })).toEqual({ limit: 0, fraction: 0 })
  })
})

describe('Dodge–Romig plans', () => {
  // Source: Montgomery, after Dodge & Romig (from memory): limit 3 %, 4001 to 5000 units, process average 1 %: 65 units,
  // acceptance number 3. The table serves a band of lots; the exact plan for one lot may be a unit smaller.
  test('the exact plan for an outgoing limit is the published one but for rounding', () => {
    const plan = designForOutgoingLimit({ lotSize: 5000, limit: 0.03, processAverage: 0.01 })
    expect(plan.acceptanceNumber).toBe(3)
    expect(Math.abs(plan.sampleSize - 65)).toBeLessThanOrEqual(1)
    expect(outgoingQualityLimit(single(65, 3), { lotSize: 5000, replacement: true }).limit).toBeLessThanOrEqual(0.03)
  })

  // Source: the same (from memory): tolerance 1 %, 5000 units, process average 0.25 %: 770 units, acceptance number 4.
  test('the exact plan for a lot tolerance is the published one but for rounding', () => {
    const consumer = { nonconforming: 50, risk: 0.1 }
    const plan = designForLotTolerance({ lotSize: 5000, consumer, processAverage: 0.0025 })
    expect(plan.acceptanceNumber).toBe(4)
    expect(Math.abs(plan.sampleSize - 770)).toBeLessThanOrEqual(5)
    expect(atMost(4, { lotSize: 5000, nonconforming: 50, sampleSize: 770 })).toBeLessThanOrEqual(0.1)
  })

  // Source: brute force over every plan of the lot.
  test('nothing keeps an outgoing limit with less inspection', () => {
    const next = numbersFrom(6)
    for (let i = 0; i < 12; i++) {
      const lotSize = 2 + Math.floor(next() * 40)
      const limit = 0.005 + next() * 0.3
      const processAverage = next() * limit
      let least = lotSize
      for (let n = 1; n < lotSize; n++)
        for (let c = 0; c < n; c++) {
          const units = averageTotalInspection(single(n, c), { fraction: processAverage, lotSize })
          if (units >= least) continue
          const worst = outgoingQualityLimit(single(n, c), { lotSize, replacement: true }).limit
          if (!exceeds(worst, limit)) least = units
        }
      const plan = designForOutgoingLimit({ lotSize, limit, processAverage })
      expect(plan.averageTotalInspection / least, `${lotSize} ${limit} ${processAverage}`).toBeCloseTo(1, 12)
    }
  })

  test('nothing keeps a lot tolerance with less inspection', () => {
    const next = numbersFrom(7)
    for (let i = 0; i < 200; i++) {
      const lotSize = 2 + Math.floor(next() * 60)
      const nonconforming = 1 + Math.floor(next() * lotSize)
      const processAverage = (next() * nonconforming) / lotSize
      const risk = [0.05, 0.1, 0.3][i % 3] ?? 0.1
      let least = lotSize
      for (let n = 1; n <= lotSize; n++)
        for (let c = 0; c < Math.min(n, nonconforming); c++) {
          if (exceeds(atMost(c, { lotSize, nonconforming, sampleSize: n }), risk)) continue
          least = Math.min(least, averageTotalInspection(single(n, c), { fraction: processAverage, lotSize }))
        }
      const plan = designForLotTolerance({ lotSize, consumer: { nonconforming, risk }, processAverage })
      expect(plan.averageTotalInspection / least, `${nonconforming} of ${lotSize}, ${processAverage}`).toBeCloseTo(
        1,
        12,
      )
    }
  })

  test('a process worse than the promise is refused by name', () => {
    const requirements = { lotSize: 100, limit: 0.03, processAverage: 0.03 }
    expect(() => designForOutgoingLimit(requirements)).toThrow(
      'processAverage must be from 0 to below limit (0.03), not 0.03',
    )
    const consumer = { nonconforming: 5, risk: 0.1 }
    expect(() => designForLotTolerance({ lotSize: 100, consumer, processAverage: 0.05 })).toThrow('processAverage')
  })
})

describe('the quality that is accepted with a chosen probability', () => {
  // Closed form: (1 − p)ⁿ = P.
  test.each([1e-12, 0.05, 0.1, 0.5, 0.95, 1 - 1e-9])('with acceptance number 0, at %d', (acceptance) => {
    for (const n of [1, 13, 500]) {
      const exact = acceptance < 0.5 ? 1 - acceptance ** (1 / n) : -Math.expm1(Math.log1p(acceptance - 1) / n)
      expect(fractionAtAcceptance(single(n, 0), acceptance) / exact).toBeCloseTo(1, 11)
    }
  })

  // Source: binomial values recomputed beside MIL-STD-105E table X-K (AQL 1.0), whose printed ones are Poisson.
  test.each([
    { acceptance: 0.99, percent: 0.664 },
    { acceptance: 0.95, percent: 1.1 },
    { acceptance: 0.9, percent: 1.403 },
    { acceptance: 0.75, percent: 2.032 },
    { acceptance: 0.5, percent: 2.93 },
    { acceptance: 0.25, percent: 4.053 },
    { acceptance: 0.1, percent: 5.266 },
    { acceptance: 0.05, percent: 6.086 },
    { acceptance: 0.01, percent: 7.813 },
  ])('125 units, acceptance number 3, at $acceptance', ({ acceptance, percent }) => {
    expect(Math.abs(100 * fractionAtAcceptance(single(125, 3), acceptance) - percent)).toBeLessThan(0.0006)
  })

  // Source: UK SI 1996/2636, schedule 2 (READ): 5.8 % and 5.0 % at 5 %, 0.44 % and 0.65 % at 95 %.
  test.each([
    { plan: single(80, 1), low: 5.8, high: 0.44 },
    { plan: single(125, 2), low: 5.0, high: 0.65 },
  ])('of the plans printed in UK SI 1996/2636: $low', ({ plan, low, high }) => {
    expect(Math.abs(100 * fractionAtAcceptance(plan, 0.05) - low)).toBeLessThan(0.06)
    expect(Math.abs(100 * fractionAtAcceptance(plan, 0.95) - high)).toBeLessThan(0.01)
  })

  // Source: the whole curve of the lot, searched from its end; the curve is checked against counting all orders.
  test('is for a lot the last number on the curve that is accepted so often', () => {
    for (const plan of [single(48, 0), single(48, 3), sevenOfThirteen, stagesOf()]) {
      const curve = [...acceptanceCurveOfLot(plan, 480)]
      for (const acceptance of [1, 0.95, 0.5, 0.1, 1e-9])
        expect(nonconformingAtAcceptance(plan, { lotSize: 480, acceptance })).toBe(
          curve.findLastIndex((accepted) => accepted >= acceptance),
        )
    }
    // By hand: with 90 of 100 tested, one nonconforming unit stays unseen with chance 0.1, equal to what is asked.
    expect(nonconformingAtAcceptance(single(90, 0), { lotSize: 100, acceptance: 0.1 })).toBe(1)
    expect(() => nonconformingAtAcceptance(single(5, -1), { lotSize: 9, acceptance: 0.5 })).toThrow(
      'every unit conforms',
    )
    expect(() => nonconformingAtAcceptance(single(5, 0), { lotSize: 9, acceptance: 0 })).toThrow('acceptance must be')
  })

  test('has its ends, and none where all processes are accepted alike', () => {
    expect(fractionAtAcceptance(single(10, 1), 1)).toBe(0)
    expect(fractionAtAcceptance(single(10, 1), 0)).toBe(1)
    for (const plan of [stagesOf(), single(10, 10), single(10, -1)])
      expect(() => fractionAtAcceptance(plan, 0.5)).toThrow('not all alike')
    expect(() => fractionAtAcceptance(single(10, 1), 1.5)).toThrow('acceptance must be from 0 to 1')
  })
})
