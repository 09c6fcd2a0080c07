// The posterior of the untested units, against whole-number counts of a uniform prior and a worked case of two lots.
import { describe, expect, test } from 'vitest'
import { posteriorOfRemainder } from '../../../app/statistics/bounds/posterior.ts'

const choose = (n: number, k: number) => {
  let ways = 1
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i
  return k < 0 || k > n ? 0 : ways
}

describe('the posterior of the untested units', () => {
  // With a uniform prior P(k) = C(d + k, d) C(N − d − k, n − d) ÷ C(N + 1, n + 1): T. Bayes's billiard table, lot form.
  test.each([
    [20, 5, 0],
    [20, 5, 3],
    [40, 39, 2],
    [30, 1, 1],
  ])('N %i, n %i, found %i under a uniform prior', (lotSize, sampleSize, found) => {
    const untested = lotSize - sampleSize
    const chances = Array.from(
      { length: untested + 1 },
      (_, k) =>
        (choose(found + k, found) * choose(lotSize - found - k, sampleSize - found)) /
        choose(lotSize + 1, sampleSize + 1),
    )
    const prior = { a: 1, b: 1 }
    for (const probability of [0.001, 0.5, 0.9, 0.99]) {
      const posterior = posteriorOfRemainder({ lotSize, sampleSize, found, prior, probability })
      let below = 0
      const quantile = chances.findIndex((chance) => {
        below += chance
        return below >= probability - 1e-12
      })
      expect(posterior.quantile).toBe(quantile)
      expect(posterior.clean).toBeCloseTo(chances[0] ?? 0, 13)
      expect(posterior.mean).toBeCloseTo(
        chances.reduce((sum, chance, k) => sum + k * chance, 0),
        12,
      )
    }
  })

  test('a probability that is met exactly is met', () => {
    // Untested altogether under a uniform prior: 0 to 99 equally likely, so 95 of them have 94 or fewer.
    const task = { lotSize: 99, sampleSize: 0, found: 0, prior: { a: 1, b: 1 } }
    expect(posteriorOfRemainder({ ...task, probability: 0.95 }).quantile).toBe(94)
    expect(posteriorOfRemainder({ ...task, probability: 0.01 }).quantile).toBe(0)
  })

  // Source: A. M. Mood (1943) turned into numbers: lots beta (0.5, 24.5); 0 of 50 → 0.667 % of the rest, 2 of 50 → 3.333 %;
  // with a steady process the sample says nothing of the rest.
  test.each([
    [0, { a: 0.5, b: 24.5 }, 1 / 150],
    [2, { a: 0.5, b: 24.5 }, 1 / 30],
    [2, { a: 2e12, b: 98e12 }, 0.02],
  ])('found %i of 50 under prior %o', (found, prior, fraction) => {
    const { mean } = posteriorOfRemainder({ lotSize: 500, sampleSize: 50, found, prior, probability: 0.9 })
    expect(mean / 450).toBeCloseTo(fraction, 12)
  })

  test('everything tested leaves nothing to guess', () => {
    const task = { lotSize: 50, sampleSize: 50, found: 4, prior: { a: 1, b: 1 }, probability: 0.95 }
    expect(posteriorOfRemainder(task)).toEqual({ mean: 0, clean: 1, quantile: 0 })
  })

  test.each([
    [{ prior: { a: 0, b: 1 } }, 'prior.a must be above 0, not 0'],
    [{ prior: { a: 1, b: Number.NaN } }, 'prior.b must be above 0, not NaN'],
    [{ probability: 1 }, 'probability must be above 0 and below 1, not 1'],
    [{ found: 6 }, 'found must be a whole number from 0 to 5, not 6'],
    [{ sampleSize: 51 }, 'sampleSize must be a whole number from 0 to 50, not 51'],
    [{ lotSize: 0 }, 'lotSize must be a whole number of at least 1, not 0'],
  ])('refuses %o', (wrong, message) => {
    const task = { lotSize: 50, sampleSize: 5, found: 1, prior: { a: 1, b: 1 }, probability: 0.95, ...wrong }
    expect(() => posteriorOfRemainder(task)).toThrow(message)
  })
})
