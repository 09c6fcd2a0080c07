// The ranking of suppliers against closed forms.
import { describe, expect, test } from 'vitest'
import { chanceLower } from '../../../app/statistics/history/lower.ts'
import { ranking } from '../../../app/statistics/history/ranking.ts'

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

function orders(items: number[]): number[][] {
  return items.length < 2
    ? [items]
    : items.flatMap((first) => orders(items.filter((each) => each !== first)).map((rest) => [first, ...rest]))
}

/** Chance that independent exponentials come in this order: the highest rate tends to be the smallest. */
function orderChance(rates: number[]): number {
  return rates.reduce((chance, rate, i) => (chance * rate) / rates.slice(i).reduce((sum, each) => sum + each), 1)
}
