// How often a lot passes that is sent again and again, against counting every sample in whole numbers.
import { describe, expect, test } from 'vitest'
import { acceptanceOfLot } from '../../../app/statistics/plans/measures.ts'
import { acceptanceInTries } from '../../../app/statistics/plans/tries.ts'

function choose(n: bigint, k: bigint): bigint {
  let ways = 1n
  for (let i = 1n; i <= k; i++) ways = (ways * (n - k + i)) / i
  return ways
}

/** 480 cords, 24 of them nonconforming, 50 tested, at most 1 allowed: samples that are accepted, and all samples. */
const accepted = choose(456n, 50n) + 24n * choose(456n, 49n)
const all = choose(480n, 50n)

/** Exact to twelve places: what is left of "all rejected" in so many tries. */
function passes(tries: bigint): number {
  return Number(((all ** tries - (all - accepted) ** tries) * 10n ** 12n) / all ** tries) / 1e12
}

describe('a lot that is just sent again', () => {
  const plan = { stages: [{ sampleSize: 50, acceptanceNumber: 1, rejectionNumber: 2 }] }
  const once = acceptanceOfLot(plan, { lotSize: 480, nonconforming: 24 })

  // the three rounded figures are those of the trade's own example, recomputed above in whole numbers
  test.each([
    [1, 0.263],
    [2, 0.457],
    [3, 0.6],
  ])('passes in %i: %d', (tries, rounded) => {
    expect(acceptanceInTries(once, tries)).toBeCloseTo(passes(BigInt(tries)), 11)
    expect(passes(BigInt(tries))).toBeCloseTo(rounded, 3)
  })

  test('that is never or always accepted stays so, and the smallest chance is not lost', () => {
    expect(acceptanceInTries(0, 3)).toBe(0)
    expect(acceptanceInTries(1, 3)).toBe(1)
    expect(acceptanceInTries(1e-20, 2)).toBeCloseTo(2e-20, 30)
  })

  test.each([
    [1.1, 2],
    [-0.1, 2],
    [0.5, 0],
    [0.5, 1.5],
  ])('is refused outside what it is meant for: %d, %d', (acceptance, tries) => {
    expect(() => acceptanceInTries(acceptance, tries)).toThrow(RangeError)
  })
})
