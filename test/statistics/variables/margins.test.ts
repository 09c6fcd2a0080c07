// The fraction of margins below the limit, one parameter and two, against base R and its own promise of no bias.
import { describe, expect, test } from 'vitest'
import { quantile } from '../../../app/statistics/distributions/normal.ts'
import { uniformNumbers } from '../../../app/statistics/uniform.ts'
import { acceptanceByVariables } from '../../../app/statistics/variables/acceptance.ts'
import { fractionBelow, unbiasedFractionBelow } from '../../../app/statistics/variables/fraction-below.ts'
import {
  acceptanceOnBoth,
  designVariablesOnBoth,
  fractionBelowEither,
} from '../../../app/statistics/variables/together.ts'

describe('the fraction of margins below the limit', () => {
  // Source: base R 4.2, uniroot over the noncentrality of pt, to the eight digits that function keeps.
  test.each([
    {
      sampleSize: 10,
      mean: 4.2,
      standardDeviation: 1.1,
      limit: 1,
      confidence: 0.95,
      lower: 2.10119641e-5,
      upper: 0.05012486235,
    },
    { sampleSize: 25, mean: 3, standardDeviation: 2, limit: 0, confidence: 0.9, lower: 0.03123056, upper: 0.1335837 },
    {
      sampleSize: 4,
      mean: -0.2,
      standardDeviation: 0.5,
      limit: 0,
      confidence: 0.99,
      lower: 0.1991134,
      upper: 0.9442677,
    },
  ])('from $sampleSize margins of mean $mean dB', ({ lower, upper, ...evidence }) => {
    const bounds = fractionBelow(evidence)
    expect(Math.abs(bounds.upper / upper - 1)).toBeLessThan(1e-6)
    expect(Math.abs(bounds.lower / lower - 1)).toBeLessThan(1e-6)
  })

  test('with no confidence to spare both bounds meet, and they part as it rises', () => {
    const evidence = { sampleSize: 12, mean: 2, standardDeviation: 1.5, limit: 0 }
    const even = fractionBelow({ ...evidence, confidence: 0.5 })
    expect(even.lower).toBeCloseTo(even.upper, 12)
    const sure = fractionBelow({ ...evidence, confidence: 0.99 })
    expect(sure.lower).toBeLessThan(even.lower)
    expect(sure.upper).toBeGreaterThan(even.upper)
  })

  // Its own promise: the mean estimate over 20,000 simulated samples is the true fraction, Φ(−1) and Φ(−2.2).
  test.each([
    [1, 0.15865525393146],
    [2.2, 0.0139034475135],
  ])('the estimate has no bias %d standard deviations above the limit', (mean, fraction) => {
    const uniform = uniformNumbers(20250301)
    const estimates = Array.from({ length: 20_000 }, () => {
      const margins = Array.from({ length: 6 }, () => mean + quantile(uniform()))
      const average = margins.reduce((sum, each) => sum + each, 0) / 6
      const spread = Math.sqrt(margins.reduce((sum, each) => sum + (each - average) ** 2, 0) / 5)
      return unbiasedFractionBelow(average / spread, 6)
    })
    const average = estimates.reduce((sum, each) => sum + each, 0) / estimates.length
    const error = Math.sqrt(estimates.reduce((sum, each) => sum + (each - average) ** 2, 0)) / estimates.length
    expect(Math.abs(average - fraction)).toBeLessThan(4 * error)
  })

  test('margins that hardly vary are far from the limit or far beyond it, and never no number', () => {
    const evidence = { sampleSize: 10, standardDeviation: 1e-9, limit: 0, confidence: 0.95 }
    expect(fractionBelow({ ...evidence, mean: 3 }).upper).toBeLessThan(1e-290)
    expect(fractionBelow({ ...evidence, mean: -3 })).toEqual({ estimate: 1, lower: 1, upper: 1 })
  })

  test.each([
    [{ sampleSize: 2 }, 'sampleSize must be a whole number of at least 3, not 2'],
    [{ standardDeviation: 0 }, 'standardDeviation must be from 1e-9 to 1000000000, not 0'],
    [{ mean: Number.NaN }, 'mean must be from -1000000 to 1000000, not NaN'],
    [{ limit: Number.POSITIVE_INFINITY }, 'limit must be from -1000000 to 1000000, not Infinity'],
    [{ confidence: 1 }, 'confidence must be above 0 and below 1, not 1'],
  ])('refuses %o', (wrong, message) => {
    const evidence = { sampleSize: 10, mean: 3, standardDeviation: 1, limit: 0, confidence: 0.95, ...wrong }
    expect(() => fractionBelow(evidence)).toThrow(message)
  })
})

describe('two parameters together', () => {
  const risks = { producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.1, risk: 0.1 } }

  test.each(['known', 'unknown'] as const)('a design keeps both risks whatever the correlation, sigma %s', (sigma) => {
    const plan = designVariablesOnBoth(sigma, risks)
    // All good cords' shortfalls in both parameters at once; the poor lot's shared in every way between the two.
    expect(acceptanceOnBoth({ ...plan, sigma, fractions: [0.01, 0.01] }).least).toBeGreaterThanOrEqual(0.95 - 1e-12)
    for (const share of [0, 0.2, 0.5, 0.9, 1]) {
      const fractions = [0.1 * share, 0.1 * (1 - share)] as const
      expect(acceptanceOnBoth({ ...plan, sigma, fractions }).most).toBeLessThanOrEqual(0.1 + 1e-12)
    }
  })

  test('independent parameters lie between the least and the most', () => {
    const one = acceptanceByVariables({ sampleSize: 20, k: 1.6, fraction: 0.02 })
    const other = acceptanceByVariables({ sampleSize: 20, k: 1.6, fraction: 0.05 })
    const both = acceptanceOnBoth({ sampleSize: 20, k: 1.6, sigma: 'unknown', fractions: [0.02, 0.05] })
    expect(both).toEqual({ least: Math.max(0, one + other - 1), independent: one * other, most: other })
    expect(both.independent).toBeGreaterThan(both.least)
    expect(both.independent).toBeLessThan(both.most)
  })

  test('the fraction short in either adds the upper bounds at half of the risk', () => {
    const crosstalk = { sampleSize: 20, mean: 3, standardDeviation: 1.5, limit: 0, confidence: 0.95 }
    const returnLoss = { ...crosstalk, mean: 2.5, standardDeviation: 1.2 }
    const either = fractionBelowEither(crosstalk, returnLoss)
    const half = [crosstalk, returnLoss].map((evidence) => fractionBelow({ ...evidence, confidence: 0.975 }))
    expect(either.upper).toBeCloseTo((half[0]?.upper ?? 0) + (half[1]?.upper ?? 0), 13)
    expect(either.lower).toBeCloseTo(Math.max(half[0]?.lower ?? 0, half[1]?.lower ?? 0), 13)
    expect(() => fractionBelowEither(crosstalk, { ...returnLoss, confidence: 0.9 })).toThrow(
      'confidence must be the same',
    )
  })
})
