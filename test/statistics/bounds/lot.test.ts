// Bounds on the lot and on its untested rest, against a table, the definition in whole numbers, and their coverage.
import { describe, expect, test } from 'vitest'
import { lowerBoundInLot, upperBoundInLot } from '../../../app/statistics/bounds/lot.ts'
import { lowerBoundInRemainder, upperBoundInRemainder } from '../../../app/statistics/bounds/remainder.ts'

// N, n, d, upper bounds at 95 and 90 %. Source: largest D with phyper(d, D, N − D, n) above the risk, base R 4.2.
const table = [
  [100, 10, 0, 24, 19],
  [100, 29, 0, 8, 6],
  [100, 45, 0, 4, 3],
  [500, 50, 0, 27, 21],
  [500, 50, 1, 43, 36],
  [1000, 80, 0, 35, 27],
  [1000, 80, 2, 74, 63],
  [240, 32, 0, 20, 15],
  [50, 8, 0, 14, 11],
  [2000, 125, 3, 119, 103],
  [500, 225, 0, 4, 3],
  [1000, 258, 0, 9, 7],
] as const

// The same at 95 % for lots of the trade's scenarios, invented suppliers.
const scenarios = [
  { scenario: 'one of 50 fails in a lot of 480', lotSize: 480, sampleSize: 50, found: 1, upper: 42 },
  { scenario: 'two of 80 fail in a lot of 800', lotSize: 800, sampleSize: 80, found: 2, upper: 59 },
  { scenario: 'none of 32 fails in a lot of 240', lotSize: 240, sampleSize: 32, found: 0, upper: 20 },
  { scenario: 'six of 32 count as failed in a lot of 240', lotSize: 240, sampleSize: 32, found: 6, upper: 78 },
  { scenario: 'none of 13 fails in a lot of 36', lotSize: 36, sampleSize: 13, found: 0, upper: 6 },
]

describe('bounds on a lot', () => {
  test.each(table)('of %i units, %i tested, %i found: at most %i and %i', (lotSize, sampleSize, found, at95, at90) => {
    expect(upperBoundInLot({ lotSize, sampleSize, found, confidence: 0.95 })).toBe(at95)
    expect(upperBoundInLot({ lotSize, sampleSize, found, confidence: 0.9 })).toBe(at90)
  })

  test.each(scenarios)('$scenario: at most $upper', ({ upper, scenario: _, ...sample }) => {
    expect(upperBoundInLot({ ...sample, confidence: 0.95 })).toBe(upper)
    expect(upperBoundInRemainder({ ...sample, confidence: 0.95 })).toBe(upper - sample.found)
  })

  // 1 − 0.9 is below 0.1 in binary; P(none found | 1 nonconforming) = 10/100 is exactly the risk, and equality is met.
  test('a probability equal to the risk is not above it', () => {
    expect(upperBoundInLot({ lotSize: 100, sampleSize: 90, found: 0, confidence: 0.9 })).toBe(0)
    expect(upperBoundInLot({ lotSize: 100_000, sampleSize: 99_999, found: 0, confidence: 0.99999 })).toBe(0)
    expect(upperBoundInLot({ lotSize: 1_000_000, sampleSize: 900_000, found: 0, confidence: 0.9 })).toBe(0)
  })

  test.each([1, 2, 3, 10, 33, 60])('of %i units agree with the definition and cover as they say', (lotSize) => {
    for (const { confidence, parts } of [
      { confidence: 0.95, parts: 20n },
      { confidence: 0.9, parts: 10n },
    ])
      for (let sampleSize = 0; sampleSize <= lotSize; sampleSize++) {
        const ways = waysOf(lotSize, sampleSize)
        const total = choose(lotSize, sampleSize)
        const bounds = Array.from({ length: sampleSize + 1 }, (_, found) => {
          const evidence = { lotSize, sampleSize, found, confidence }
          return { upper: upperBoundInLot(evidence), lower: lowerBoundInLot(evidence) }
        })
        for (const [found, { upper, lower }] of bounds.entries()) {
          const likely = ways.flatMap((row, D) => (sum(row.slice(0, found + 1)) * parts > total ? [D] : []))
          const likelyUp = ways.flatMap((row, D) => (sum(row.slice(found)) * parts > total ? [D] : []))
          expect(upper, `upper, ${found} of ${sampleSize}`).toBe(likely.at(-1))
          expect(lower, `lower, ${found} of ${sampleSize}`).toBe(likelyUp[0])
        }
        for (const [D, row] of ways.entries()) {
          const over = sum(row.filter((_, found) => bounds[found]!.upper >= D))
          const under = sum(row.filter((_, found) => bounds[found]!.lower <= D))
          expect(over * parts >= (parts - 1n) * total, `coverage at ${D} of ${lotSize}, upper`).toBe(true)
          expect(under * parts >= (parts - 1n) * total, `coverage at ${D} of ${lotSize}, lower`).toBe(true)
        }
      }
  })

  test('everything tested leaves no doubt, nothing tested no knowledge', () => {
    const all = { lotSize: 77, sampleSize: 77, found: 5, confidence: 0.95 }
    expect([upperBoundInLot(all), lowerBoundInLot(all)]).toEqual([5, 5])
    expect([upperBoundInRemainder(all), lowerBoundInRemainder(all)]).toEqual([0, 0])
    const none = { lotSize: 77, sampleSize: 0, found: 0, confidence: 0.95 }
    expect([upperBoundInLot(none), lowerBoundInLot(none)]).toEqual([77, 0])
  })

  // Source: base R 4.2, phyper over a bisection.
  test('of ten million units', () => {
    const evidence = { lotSize: 10_000_000, sampleSize: 4000, found: 3, confidence: 0.95 }
    expect(upperBoundInLot(evidence)).toBe(19370)
    expect(lowerBoundInLot(evidence)).toBe(2046)
  })

  test.each([
    [{ lotSize: 0, sampleSize: 0, found: 0, confidence: 0.95 }, 'lotSize must be a whole number of at least 1, not 0'],
    [
      { lotSize: 40, sampleSize: 48, found: 0, confidence: 0.95 },
      'sampleSize must be a whole number from 0 to 40, not 48',
    ],
    [{ lotSize: 40, sampleSize: 10, found: 11, confidence: 0.95 }, 'found must be a whole number from 0 to 10, not 11'],
    [{ lotSize: 40, sampleSize: 10, found: 0, confidence: 0 }, 'confidence must be above 0 and below 1, not 0'],
    [{ lotSize: Number.NaN, sampleSize: 10, found: 0, confidence: 0.9 }, 'lotSize must be a whole number'],
  ])('refuse %o', (evidence, message) => {
    for (const bound of [upperBoundInLot, lowerBoundInLot, upperBoundInRemainder, lowerBoundInRemainder])
      expect(() => bound(evidence)).toThrow(message)
  })
})

/** For each number nonconforming D, the ways to draw n units with 0, 1, … n nonconforming ones, in whole numbers. */
function waysOf(N: number, n: number): bigint[][] {
  return Array.from({ length: N + 1 }, (_, D) =>
    Array.from({ length: n + 1 }, (_, d) => choose(D, d) * choose(N - D, n - d)),
  )
}

function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n
  let ways = 1n
  for (let i = 1; i <= k; i++) ways = (ways * BigInt(n - k + i)) / BigInt(i)
  return ways
}

function sum(values: readonly bigint[]): bigint {
  return values.reduce((total, value) => total + value, 0n)
}
