// Charts of lots against the worked example of the handbook, and how often they alarm.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  chartRunLength,
  exactChartLimits,
  pChartCounts,
  pChartLimits,
  signalOf,
} from '../../../app/statistics/history/chart.ts'
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
