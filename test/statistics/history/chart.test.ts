// Charts of lots, run rules and cumulative sums against the worked example of the handbook and exact run lengths.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  chartRunLength,
  exactChartLimits,
  pChartCounts,
  pChartLimits,
  signalOf,
} from '../../../app/statistics/history/chart.ts'
import {
  countZones,
  normalZones,
  type RunRule,
  runRuleLength,
  runRules,
  runSignals,
  sigmasFrom,
} from '../../../app/statistics/history/runs.ts'
import { publishedRows } from '../../published/rows.ts'

describe('the worked p-chart of the e-Handbook 6.3.3.2', () => {
  const limits = z.object({ p: z.number(), UCL: z.number() }).passthrough()
  const [trial] = publishedRows('pchart-trial', z.object({ found: z.array(z.number()), n: z.number() }), limits)
  const found = trial?.input.found ?? []

  test('trial limits of 30 samples of 50, and the two samples beyond', () => {
    const chart = { fraction: 347 / 1500, sampleSize: 50, sigmas: 3 }
    expect(pChartLimits(chart).lower).toBeCloseTo(0.05242754807192823, 12)
    expect(pChartLimits(chart).upper).toBeCloseTo(0.41023911859473844, 12)
    const beyond = found.flatMap((count, i) => (signalOf(count, pChartCounts(chart)) === 'none' ? [] : [i + 1]))
    expect(beyond).toEqual([15, 23])
  })

  test('without them sample 21 is beyond', () => {
    const kept = found.filter((_, i) => i !== 14 && i !== 22)
    const fraction = kept.reduce((sum, count) => sum + count, 0) / (50 * kept.length)
    const chart = { fraction, sampleSize: 50, sigmas: 3 }
    expect(pChartLimits(chart).lower).toBeCloseTo(0.040702839954289555, 12)
    expect(pChartLimits(chart).upper).toBeCloseTo(0.38929716004571047, 12)
    expect(found.flatMap((count, i) => (signalOf(count, pChartCounts(chart)) === 'above' ? [i + 1] : []))).toEqual([
      15, 21, 23,
    ])
  })
})

const tails = z.object({
  signalAtMost: z.number(),
  signalAtLeast: z.number(),
  lowTail: z.number(),
  highTail: z.number(),
})

// Counts strictly outside three sigmas, and outside an exact 0.00135 on each side: base R and exact fractions.
describe('what three sigmas and exact limits really are', () => {
  const rows = publishedRows(
    'pchart-tails',
    z.object({ p: z.number(), n: z.number() }),
    tails.extend({ exact00135: tails }),
  )
  test('there are nine', () => expect(rows).toHaveLength(9))

  test.each(rows)('$id', ({ input: { p, n }, recomputed }) => {
    const sigmas = pChartCounts({ fraction: p, sampleSize: n, sigmas: 3 })
    const exact = exactChartLimits({ fraction: p, sampleSize: n, tailProbability: 0.00135 })
    for (const [limits, wanted] of [
      [sigmas, recomputed],
      [exact, recomputed.exact00135],
    ] as const) {
      expect(limits.upper + 1).toBe(wanted.signalAtLeast)
      expect(limits.lower - 1).toBe(Math.max(-1, wanted.signalAtMost))
      const length = chartRunLength(limits, { sampleSize: n, fraction: p })
      expect(length * (wanted.lowTail + wanted.highTail)).toBeCloseTo(1, 11)
    }
  })

  test('a count on the limit does not signal: 10 % of 100 at three sigmas is exactly 1 and 19', () => {
    expect(pChartCounts({ fraction: 0.1, sampleSize: 100, sigmas: 3 })).toEqual({ lower: 1, upper: 19 })
  })

  test('at the ends, and refused by name', () => {
    expect(exactChartLimits({ fraction: 0, sampleSize: 80, tailProbability: 0.01 })).toEqual({ lower: 0, upper: 0 })
    expect(exactChartLimits({ fraction: 1, sampleSize: 80, tailProbability: 0.01 })).toEqual({ lower: 80, upper: 80 })
    expect(exactChartLimits({ fraction: 0.3, sampleSize: 0, tailProbability: 0.01 })).toEqual({ lower: 0, upper: 0 })
    expect(chartRunLength({ lower: 0, upper: 80 }, { sampleSize: 80, fraction: 0.3 })).toBe(Number.POSITIVE_INFINITY)
    expect(() => pChartLimits({ fraction: 0.1, sampleSize: 0, sigmas: 3 })).toThrow('sampleSize')
    expect(() => exactChartLimits({ fraction: 0.1, sampleSize: 9, tailProbability: 0 })).toThrow('tailProbability')
  })
})

describe('run rules', () => {
  const rows = publishedRows(
    'weco-arl',
    z.object({ rules: z.array(z.number()), shifts: z.array(z.number()) }),
    z.array(z.number()),
  )
  test('there are eight published rows', () => expect(rows).toHaveLength(8))

  test.each(rows)('$id: $source', ({ input, recomputed }) => {
    const rules = input.rules.map((number) => runRules[number - 1]!)
    for (const [i, shift] of input.shifts.entries())
      expect(Math.abs(runRuleLength(rules, normalZones(shift)) / recomputed[i]! - 1)).toBeLessThan(1e-9)
  })

  test('on counts they alarm more often than on normal points, and the centre line breaks a run', () => {
    const inControl = { sampleSize: 80, inControl: 0.01, fraction: 0.01 }
    const one: RunRule[] = ['one beyond three sigmas']
    // The three-sigma row above: signals at 4 and more of 80 at 1 %, 1 in 115.48.
    expect(runRuleLength(one, countZones(inControl))).toBeCloseTo(115.48, 2)
    const total = [...countZones({ sampleSize: 50, inControl: 0.1, fraction: 0.13 }).values()].reduce(
      (sum, each) => sum + each,
    )
    expect(total).toBeCloseTo(1, 12)
    expect(countZones({ sampleSize: 50, inControl: 0.1, fraction: 0.1 }).get(0)).toBeCloseTo(0.18492460089521, 12) // base R: dbinom(5, 50, .1)
    expect(runSignals([0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0, 0.1])).toEqual([])
  })

  test('speak where the handbook’s patterns are complete, on points in their zone', () => {
    // The patterns of the Western Electric handbook (1956), from memory.
    expect(runSignals([0.5, 3.2, -0.4])).toEqual([{ at: 1, rule: 'one beyond three sigmas', side: 'above' }])
    expect(runSignals([2.1, 0.5, 2.2])).toEqual([{ at: 2, rule: 'two of three beyond two sigmas', side: 'above' }])
    expect(runSignals([2.1, 2.2, 0.5]).map(({ at }) => at)).toEqual([1])
    expect(runSignals([2.1, -2.2, 0.3, 2.3])).toEqual([])
    expect(runSignals([-1.1, -1.2, 0.3, -1.4, -1.5])).toEqual([
      { at: 4, rule: 'four of five beyond one sigma', side: 'below' },
    ])
    expect(runSignals([-1.1, -1.2, -1.3, 0.2, -1.4, 0.1]).map(({ at }) => at)).toEqual([4])
    expect(runSignals(Array(8).fill(-0.2))).toEqual([{ at: 7, rule: 'eight in a row on one side', side: 'below' }])
    expect(runSignals(Array(9).fill(0.2), ['one beyond three sigmas'])).toEqual([])
    expect(sigmasFrom(0.1, { sampleSize: 100, found: 19 })).toBeCloseTo(3, 14)
    expect(runSignals([sigmasFrom(0.1, { sampleSize: 100, found: 19 })])).toEqual([])
    expect(() => runSignals([0, Number.NaN])).toThrow('points[1]')
  })
})
