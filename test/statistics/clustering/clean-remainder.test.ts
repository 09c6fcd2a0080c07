// The chance of a clean remainder, against exact urn fractions and gamma functions at 60 digits.
import { describe, expect, test } from 'vitest'
import { cleanRemainder } from '../../../app/statistics/clustering/clean-remainder.ts'

// N, n, fraction, correlation, value. Source: mpmath at 60 digits, Γ(b + N) Γ(a + b + n) ÷ (Γ(b + n) Γ(a + b + N)).
const reference: [number, number, number, number, number][] = [
  [480, 48, 0.02, 1e-9, 0.0001620562212690885],
  [480, 48, 0.02, 1e-15, 0.0001620558447968862],
  [480, 0, 0.02, 0.5, 0.8733903545972438],
  [10_000_000, 10, 0.001, 0.1, 0.8879818052382524],
  [10_000_000, 0, 1e-7, 0.001, 0.9990801503802765],
  [10_000_000, 1_000_000, 1e-6, 1e-6, 0.18181834301221933],
  [500, 1, 0.999, 0.9999, 0.9993217672120336],
  [500, 0, 0.5, 0.01, 3.064531746613806e-45],
  [1000, 100, 0.3, 0.999999999, 0.999999999307872],
  [100, 10, 0.97, 0.001, 2.220617481010586e-101],
  [60, 5, 1, 0.5, 1 / 12],
]

describe('the chance of a clean remainder', () => {
  test.each(reference)(
    'N %i, n %i, fraction %d, correlation %d',
    (lotSize, sampleSize, fraction, correlation, value) => {
      const chance = cleanRemainder({ lotSize, sampleSize, fraction, correlation })
      expect(Math.abs(chance / value - 1)).toBeLessThan(5e-13)
    },
  )

  // The question of the product: 48 of 480 clean, 2 % on average. Source: (1 − 0.02)^432, and certainty.
  test('one by one 2 in 10,000, all alike certain', () => {
    const lot = { lotSize: 480, sampleSize: 48, fraction: 0.02 }
    expect(cleanRemainder({ ...lot, correlation: 0 })).toBeCloseTo(0.98 ** 432, 15)
    expect(cleanRemainder({ ...lot, correlation: 1 })).toBe(1)
  })

  // Pólya's urn: with a = 1, b = 4 (fraction 1/5, correlation 1/6) the chance is the product of (4 + i) ÷ (5 + i).
  test.each([
    [10, 3],
    [17, 0],
    [40, 39],
  ])('an urn of %i with %i drawn', (lotSize, sampleSize) => {
    const expected = (4 + sampleSize) / (4 + lotSize) // the product telescopes
    expect(cleanRemainder({ lotSize, sampleSize, fraction: 1 / 5, correlation: 1 / 6 })).toBeCloseTo(expected, 14)
  })

  test('at the ends: all tested, nothing nonconforming, nothing tested of one piece', () => {
    expect(cleanRemainder({ lotSize: 9, sampleSize: 9, fraction: 0.9, correlation: 0.3 })).toBe(1)
    expect(cleanRemainder({ lotSize: 9, sampleSize: 0, fraction: 0, correlation: 0.3 })).toBe(1)
    expect(cleanRemainder({ lotSize: 9, sampleSize: 0, fraction: 0.3, correlation: 1 })).toBe(0.7)
    expect(cleanRemainder({ lotSize: 9, sampleSize: 3, fraction: 1, correlation: 0 })).toBe(0)
    expect(cleanRemainder({ lotSize: 9, sampleSize: 0, fraction: 1, correlation: 0.5 })).toBe(0)
  })

  test('it rises with the correlation', () => {
    const at = (correlation: number) => cleanRemainder({ lotSize: 480, sampleSize: 48, fraction: 0.02, correlation })
    const chances = [0, 1e-6, 0.001, 0.01, 0.1, 0.3, 0.6, 0.9, 0.999, 1].map(at)
    expect(chances).toEqual(chances.toSorted((a, b) => a - b))
  })

  test.each([
    [
      { lotSize: 0, sampleSize: 0, fraction: 0.1, correlation: 0.1 },
      'lotSize must be a whole number from 1 to 10000000, not 0',
    ],
    [
      { lotSize: 5, sampleSize: 6, fraction: 0.1, correlation: 0.1 },
      'sampleSize must be a whole number from 0 to 5, not 6',
    ],
    [{ lotSize: 5, sampleSize: 1, fraction: 1.1, correlation: 0.1 }, 'fraction must be from 0 to 1, not 1.1'],
    [{ lotSize: 5, sampleSize: 1, fraction: 0.1, correlation: -0.1 }, 'correlation must be from 0 to 1, not -0.1'],
    [{ lotSize: 5, sampleSize: 1, fraction: 0.1, correlation: Number.NaN }, 'correlation must be from 0 to 1, not NaN'],
  ])('refuses %o', (lot, message) => {
    expect(() => cleanRemainder(lot)).toThrow(message)
  })
})
