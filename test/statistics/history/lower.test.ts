// The chance that one supplier is better, against exact fractions and closed forms.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { chanceLower } from '../../../app/statistics/history/lower.ts'
import { publishedRows } from '../../published/rows.ts'
import { quotient } from '../../support/exact.ts'

const pair = z.tuple([z.number(), z.number()])

describe('chanceLower', () => {
  const value = z.union([z.number(), z.object({ value: z.number() })])
  const rows = publishedRows('chancelower-', z.object({ first: pair, second: pair }), value)
  test('there are fifteen published rows', () => expect(rows).toHaveLength(15))

  test.each(rows)('$id: $source', ({ input, recomputed }) => {
    const [[a1, b1], [a2, b2]] = [input.first, input.second]
    const wanted = typeof recomputed === 'number' ? recomputed : recomputed.value
    close(chanceLower({ a: a1, b: b1 }, { a: a2, b: b2 }), wanted, 1e-13)
    close(chanceLower({ a: a2, b: b2 }, { a: a1, b: b1 }), 1 - wanted, 1e-12)
  })

  // P. Altham (1969): a one-sided Fisher test is such a chance (from memory); the tea tasting of Fisher (1935) is 17/70.
  test.each(
    publishedRows(
      'altham-',
      z.object({ x1: z.number(), n1: z.number(), x2: z.number(), n2: z.number() }),
      z.object({ value: z.number() }),
    ),
  )('$id', ({ input: { x1, n1, x2, n2 }, recomputed }) => {
    close(chanceLower({ a: x1, b: n1 - x1 + 1 }, { a: x2 + 1, b: n2 - x2 }), recomputed.value, 1e-12)
  })

  // The closed form for whole a₂ (E. Miller 2015), by an arbitrary-precision library at 60 digits: far tails, tiny and huge parameters.
  test.each([
    { first: [200.5, 10.25], second: [20, 100.5], chance: 4.343829082204753e-53 },
    { first: [200, 10], second: [20, 100], chance: 5.024562633964555e-53 },
    { first: [30, 20], second: [2, 30], chance: 4.164985255071237e-8 },
    { first: [0.01, 5], second: [3, 0.02], chance: 0.9999990382458918 },
    { first: [1e-5, 1], second: [1, 1e-5], chance: 0.999999999835509 },
    { first: [5.5, 1e-7], second: [3, 1e-9], chance: 0.9900990092194963 },
    { first: [3e-8, 1e7], second: [1, 2e7], chance: 0.9999999670416309 },
    { first: [2.5, 1e9], second: [9, 1e9], chance: 0.9802993444574352 },
    { first: [300, 1e-3], second: [1, 50], chance: 1.7650555440820092e-66 },
    { first: [1e10, 1e10], second: [100, 100], chance: 0.5 },
    { first: [1e15, 1e15], second: [1e15, 1e15], chance: 0.5 },
    { first: [1e-300, 1], second: [1e-300, 1], chance: 0.5 },
  ])('$first and $second', ({ first, second, chance }) => {
    const [a1 = 0, b1 = 0] = first
    const [a2 = 0, b2 = 0] = second
    close(chanceLower({ a: a1, b: b1 }, { a: a2, b: b2 }), chance, 1e-12)
  })

  test('whole parameters against exact fractions, and mirrored: 1 − p exchanges a and b', () => {
    for (let a1 = 1; a1 <= 9; a1 += 2)
      for (let b1 = 1; b1 <= 30; b1 += 7)
        for (let a2 = 1; a2 <= 7; a2 += 3)
          for (const b2 of [1, 4, 25]) {
            const exact = closedForm(a1, b1, a2, b2)
            close(chanceLower({ a: a1, b: b1 }, { a: a2, b: b2 }), exact, 1e-12)
            close(chanceLower({ a: b2, b: a2 }, { a: b1, b: a1 }), exact, 1e-12)
          }
  })

  test('large equal-sized beliefs are as good as normal', () => {
    // Difference of two fractions of 1e12 units: normal with variance 2 p(1 − p)/n to 1e-6; the standard normal at −1 is 0.158655.
    const n = 1e12
    const shift = Math.sqrt((2 * 0.25) / n) * n
    expect(
      chanceLower({ a: n / 2 + shift / 2, b: n / 2 - shift / 2 }, { a: n / 2 - shift / 2, b: n / 2 + shift / 2 }),
    ).toBeCloseTo(0.158655253931457, 9)
  })

  test('bad arguments are refused by name', () => {
    expect(() => chanceLower({ a: 0, b: 1 }, { a: 1, b: 1 })).toThrow('first.a')
    expect(() => chanceLower({ a: 1, b: 1 }, { a: 1, b: Number.NaN })).toThrow('second.b')
  })
})

/** Σ over i < a₂ of B(a₁ + i, b₁ + b₂) ÷ ((b₂ + i) B(1 + i, b₂) B(a₁, b₁)) in exact fractions. */
function closedForm(a1: number, b1: number, a2: number, b2: number): number {
  let numerator = 0n
  let denominator = 1n
  for (let i = 0; i < a2; i++) {
    const up = beta(a1 + i, b1 + b2)[0] * beta(1 + i, b2)[1] * beta(a1, b1)[1]
    const down = beta(a1 + i, b1 + b2)[1] * BigInt(b2 + i) * beta(1 + i, b2)[0] * beta(a1, b1)[0]
    numerator = numerator * down + up * denominator
    denominator *= down
  }
  return quotient(numerator, denominator)
}

function beta(a: number, b: number): [bigint, bigint] {
  return [factorial(a - 1) * factorial(b - 1), factorial(a + b - 1)]
}

function factorial(n: number): bigint {
  return n < 2 ? 1n : BigInt(n) * factorial(n - 1)
}

function close(actual: number, wanted: number, within: number): void {
  expect(Math.abs(actual - wanted), `${actual} for ${wanted}`).toBeLessThanOrEqual(within * wanted + 1e-300)
}
