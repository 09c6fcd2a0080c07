// What lots say of the next one: the likelihood where it has a maximum, and never more than one lot is worth.
import { describe, expect, test } from 'vitest'
import type { LotResult } from '../../../app/statistics/history/lots.ts'
import { priorOfNextLot } from '../../../app/statistics/history/next-lot.ts'

/** Lots as "found/tested". */
const lotsOf = (said: string): LotResult[] =>
  said.split(' ').map((lot) => {
    const [found = 0, sampleSize = 0] = lot.split('/').map(Number)
    return { sampleSize, found }
  })

describe('the maximum of the likelihood, by a second implementation in R and Python (recomputed digits)', () => {
  test.each([
    { lots: '0/240 40/264', a: 0.18545218, b: 2.62972115 },
    { lots: '0/288 2/300 6/288 15/240', a: 0.63654832, b: 28.04726174 },
  ])('of $lots', ({ lots, a, b }) => {
    const prior = priorOfNextLot(lotsOf(lots))
    // the maximum is flat: the other optimizer's digits end there
    expect(Math.abs(prior.a / a - 1)).toBeLessThan(2e-6)
    expect(Math.abs(prior.b / b - 1)).toBeLessThan(2e-6)
  })
})

describe('lots without a maximum, or with one that says too much (by hand from the rule)', () => {
  test.each([
    { name: 'none found in five', lots: '0/216 0/216 0/216 0/216 0/216', mean: 0.5 / 1081, weight: 216 },
    { name: 'one found in five', lots: '0/216 0/216 1/216 0/216 0/216', mean: 1.5 / 1081, weight: 216 },
    { name: 'lots of several sizes', lots: '0/50 1/100 0/150', mean: 1.5 / 301, weight: 100 },
    { name: 'every cord found', lots: '5/5 5/5 5/5', mean: 15.5 / 16, weight: 5 },
    { name: 'each lot all good or all bad', lots: '0/60 60/60 0/60', mean: 60.5 / 181, weight: 1 },
    { name: 'a lot of which nothing was tested', lots: '0/0 0/50 1/50 0/50', mean: 1.5 / 151, weight: 50 },
  ])('$name', ({ lots, mean, weight }) => {
    const { a, b } = priorOfNextLot(lotsOf(lots))
    expect(a + b).toBeCloseTo(weight, 9)
    expect(a / (a + b)).toBeCloseTo(mean, 12)
  })

  test('a maximum beyond one lot keeps its mean and no more than the weight of a lot', () => {
    // these differ by a little more than chance: the likelihood alone would count them as hundreds of cords
    const { a, b } = priorOfNextLot(lotsOf('8/200 16/200 10/200 14/200 7/200 17/200'))
    expect(a + b).toBe(200)
    expect(a / (a + b)).toBeCloseTo(0.06, 5)
  })
})

test('refuses what are no lots', () => {
  expect(() => priorOfNextLot([])).toThrow(/lots/)
  expect(() => priorOfNextLot([{ sampleSize: 5, found: 6 }])).toThrow(/lots\[0\]\.found/)
  expect(() => priorOfNextLot([{ sampleSize: 0, found: 0 }])).toThrow(/lots/)
})
