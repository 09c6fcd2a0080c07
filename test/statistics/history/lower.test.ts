// The chance that one supplier is better, and the ranking of several, against exact fractions and closed forms.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { chanceLower } from '../../../app/statistics/history/lower.ts'
import { ranking } from '../../../app/statistics/history/ranking.ts'
import { shrunkRate, supplierRates } from '../../../app/statistics/history/rates.ts'
import { publishedRows } from '../../published/rows.ts'

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

describe('ranking', () => {
  test('of two suppliers is the chance that one is lower', () => {
    const [first, second] = [
      { a: 0.5, b: 80.5 },
      { a: 2.5, b: 78.5 },
    ]
    const standings = ranking([first, second], 0.9)
    expect(standings[0]?.chanceBest).toBeCloseTo(chanceLower(first, second), 11)
    expect(standings[1]?.chanceBest).toBeCloseTo(chanceLower(second, first), 11)
  })

  test('of suppliers without a find follows the exponential race', () => {
    // With a = 1, −ln(1 − p) is exponential with rate b: the order of independent exponentials is known in closed form.
    const rates = [30, 50, 120, 400]
    const standings = ranking(
      rates.map((b) => ({ a: 1, b })),
      0.9,
    )
    for (const [i, standing] of standings.entries()) {
      const chances = orders([0, 1, 2, 3]).reduce(
        (sums, order) => {
          sums[order.indexOf(i)]! += orderChance(order.map((k) => rates[k]!))
          return sums
        },
        [0, 0, 0, 0],
      )
      for (const [rank, chance] of chances.entries()) expect(standing.chances[rank]).toBeCloseTo(chance, 10)
      expect(standing.chanceBest).toBeCloseTo(rates[i]! / 600, 10)
    }
  })

  test('of suppliers alike is even, and one sure of being best is first with certainty', () => {
    const alike = ranking(
      Array.from({ length: 5 }, () => ({ a: 2, b: 90 })),
      0.9,
    )
    for (const { chanceBest, expectedRank, bestRank, worstRank } of alike) {
      expect(chanceBest).toBeCloseTo(0.2, 10)
      expect(expectedRank).toBeCloseTo(3, 10)
      expect([bestRank, worstRank]).toEqual([1, 5])
    }
    const sure = ranking(
      [
        { a: 50, b: 50 },
        { a: 1, b: 1000 },
        { a: 80, b: 20 },
      ],
      0.9,
    )
    expect(sure.map(({ bestRank, worstRank }) => [bestRank, worstRank])).toEqual([
      [2, 2],
      [1, 1],
      [3, 3],
    ])
  })

  test('bad arguments are refused by name', () => {
    expect(() => ranking([], 0.9)).toThrow('beliefs')
    expect(() => ranking([{ a: 1, b: 0 }], 0.9)).toThrow('beliefs[0].b')
    expect(() => ranking([{ a: 1, b: 1 }], 1)).toThrow('confidence')
  })
})

describe('rates drawn towards the prior', () => {
  test('the 71st group of rats: 4 of 14 under the moment prior of the other 70', () => {
    // Gelman et al., Bayesian Data Analysis, ch. 5: mean .223, standard deviation .083 (from memory; recomputed).
    const { belief, mean } = shrunkRate({
      prior: { a: 1.35614939103193, b: 8.61505789132079 },
      own: { sampleSize: 14, found: 4 },
      confidence: 0.9,
    })
    expect(mean).toBeCloseTo(0.223440952637169, 12)
    const worth = belief.a + belief.b
    expect(Math.sqrt((mean * (1 - mean)) / (worth + 1))).toBeCloseTo(0.0833583019469231, 12)
  })

  test('the same raw 0 % is another rate for 10 units than for 20: posterior means under the fitted prior', () => {
    const groups = z.object({
      'lots [sampleSize, found, times]': z.array(z.tuple([z.number(), z.number(), z.number()])),
    })
    const [data] = publishedRows('bbfit-tarone_rats71', groups, z.unknown())
    const [means] = publishedRows('eb-rats71', z.unknown(), z.record(z.string(), z.number()))
    const suppliers = (data?.input['lots [sampleSize, found, times]'] ?? []).flatMap(([sampleSize, found, times]) =>
      Array.from({ length: times }, () => ({ sampleSize, found })),
    )
    const { priorFrom, prior, rates } = supplierRates({ suppliers, stated: { a: 1, b: 1 }, confidence: 0.9 })
    expect(priorFrom).toBe('suppliers')
    expect(rates[0]).toEqual(shrunkRate({ prior, own: suppliers[0] ?? { sampleSize: 0, found: 0 }, confidence: 0.9 }))
    let compared = 0
    for (const [group, mean] of Object.entries(means?.recomputed ?? {})) {
      const [found = 0, sampleSize = 0] = group.split('/').map(Number)
      expect(shrunkRate({ prior, own: { sampleSize, found }, confidence: 0.9 }).mean, group).toBeCloseTo(mean, 9)
      compared += 1
    }
    expect(compared).toBe(8)
  })

  test('the interval holds its share of the posterior, and a new supplier is the prior', () => {
    const rate = shrunkRate({ prior: { a: 1, b: 1 }, own: { sampleSize: 0, found: 0 }, confidence: 0.9 })
    expect(rate).toMatchObject({ mean: 0.5, ownShare: 0 })
    expect(rate.lower).toBeCloseTo(0.05, 14) // the uniform distribution
    expect(rate.upper).toBeCloseTo(0.95, 14)
  })

  test('where the suppliers cannot say how much they differ, the reader’s prior serves and the answer says so', () => {
    const stated = { a: 0.2, b: 1.8 }
    const rates = supplierRates({
      suppliers: [
        { sampleSize: 80, found: 0 },
        { sampleSize: 20, found: 0 },
      ],
      stated,
      confidence: 0.9,
    })
    expect(rates).toMatchObject({ priorFrom: 'reader', prior: stated, fit: { reason: 'none found' } })
    expect(rates.rates[0]?.mean).toBeCloseTo(0.2 / 82, 14)
    expect(() => shrunkRate({ prior: { a: 1, b: 1 }, own: { sampleSize: 1, found: 2 }, confidence: 0.9 })).toThrow(
      'own.found',
    )
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
  return Number((numerator * 10n ** 30n) / denominator) / 1e30
}

function beta(a: number, b: number): [bigint, bigint] {
  return [factorial(a - 1) * factorial(b - 1), factorial(a + b - 1)]
}

function factorial(n: number): bigint {
  return n < 2 ? 1n : BigInt(n) * factorial(n - 1)
}

function orders(items: number[]): number[][] {
  return items.length < 2
    ? [items]
    : items.flatMap((first) => orders(items.filter((each) => each !== first)).map((rest) => [first, ...rest]))
}

/** Chance that independent exponentials come in this order: the highest rate tends to be the smallest. */
function orderChance(rates: number[]): number {
  return rates.reduce((chance, rate, i) => (chance * rate) / rates.slice(i).reduce((sum, each) => sum + each), 1)
}

function close(actual: number, wanted: number, within: number): void {
  expect(Math.abs(actual - wanted), `${actual} for ${wanted}`).toBeLessThanOrEqual(within * wanted + 1e-300)
}
