// Run rules: exact run lengths against published ones, and the handbook's patterns.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
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
