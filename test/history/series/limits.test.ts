// Where the rules of a series begin and end: at the very numbers, and no earlier or later.
import { describe, expect, test } from 'vitest'
import { factsOfSpools } from '../../../app/history/replay/remainders.ts'
import { trendOf } from '../../../app/history/series/trend.ts'
import { summaryFrom } from '../../../app/history/summary.ts'
import { lotOf } from '../../support/counted-lot.ts'

describe('the cumulative sum of a series', () => {
  // (2 + 4) of (100 + 200): 2 of 100, so that 4 are expected of twice the share in a lot of 100 (by hand)
  const prior = { a: 2, b: 98 }
  const later = (cords: number) => trendOf([lotOf(1, 100, 2), lotOf(2, 100, 2), lotOf(3, cords, 0)], prior)

  test.each([
    { cords: 1, has: false },
    { cords: 2, has: true },
    { cords: 100, has: true },
    { cords: 101, has: false },
  ])('of lots of $cords: $has', ({ cords, has }) => {
    expect(later(cords)?.centre).toBeCloseTo(0.02, 15)
    expect(later(cords)?.cusum !== undefined).toBe(has)
  })
})

test('spools have a correlation only where a cord carries a mark', () => {
  expect(factsOfSpools([])).toEqual({ spools: 0, cords: 0, correlation: undefined })
  const marked = factsOfSpools([
    { spools: 1, sampleSize: 2, found: 2 },
    { spools: 1, sampleSize: 2, found: 0 },
  ])
  expect(marked).toMatchObject({ spools: 2, cords: 4 })
  expect(marked.correlation).toBeDefined()
})

describe('what the lots of a supplier showed', () => {
  const supplier = { id: 1, name: 'A supplier' }

  test('stands in the order of the decisions, however the lots come', () => {
    const { lots } = summaryFrom(supplier, [lotOf(3, 50, 0), lotOf(1, 50, 1), lotOf(2, 50, 0)], 0)
    expect(lots.map(({ lotId }) => lotId)).toEqual([1, 2, 3])
  })

  test('after two samples has the limits of the plan and its end, by every way the two samples can fall', () => {
    const size = 60
    const stages = [
      { sampleSize: 5, acceptanceNumber: 0, rejectionNumber: 4 },
      { sampleSize: 10, acceptanceNumber: 3, rejectionNumber: 4 },
    ]
    const sample = { recorded: 10, found: 5 }
    const at = new Date(Date.UTC(2031, 0, 1))
    const decided = { outcome: 'returned', at, verdict: 'reject', ...sample } as const
    const lot = lotOf(1, size, 0, {
      planKind: 'double',
      acceptanceNumber: 3,
      sampleSize: 10,
      stages,
      sample,
      all: sample,
      decided,
    })
    const { lots } = summaryFrom(supplier, [lot], 0)

    const possible = Array.from({ length: size + 1 }, (_, nonconforming) => nonconforming)
    // ends in their order: accepted after 5, after 10 with few to many, rejected after 10 with few to many, after 5 with few to many
    const worse = (nonconforming: number) =>
      chanceOf(size, nonconforming, (first, both) => first >= 4 || (first > 0 && both >= 5))
    const better = (nonconforming: number) =>
      chanceOf(size, nonconforming, (first, both) => first === 0 || (first < 4 && both <= 5))
    const lowest = possible.filter((each) => each >= 5 && worse(each) > 0.025)[0] ?? 0
    const highest = possible.filter((each) => each <= size - 5 && better(each) > 0.025).at(-1) ?? 0
    expect(lots[0]?.interval.lower).toBeCloseTo(lowest / size, 12)
    expect(lots[0]?.interval.upper).toBeCloseTo(highest / size, 12)
    expect(lowest).toBeGreaterThan(5)
  })
})

/** Chance that 5 cords and then 5 more of the lot turn out so: hypergeometric, counted by binomial coefficients. */
function chanceOf(size: number, nonconforming: number, so: (first: number, both: number) => boolean): number {
  let chance = 0
  for (let first = 0; first <= 5; first++)
    for (let second = 0; second <= 5; second++) {
      if (!so(first, first + second)) continue
      const one = choose(nonconforming, first) * choose(size - nonconforming, 5 - first)
      const two = choose(nonconforming - first, second) * choose(size - 5 - nonconforming + first, 5 - second)
      chance += (one / choose(size, 5)) * (two / choose(size - 5, 5))
    }
  return chance
}

function choose(n: number, k: number): number {
  if (k < 0 || k > n) return 0
  let ways = 1
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i
  return ways
}
