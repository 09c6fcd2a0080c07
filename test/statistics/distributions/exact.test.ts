// The discrete distributions against exact whole-number arithmetic, over whole supports and at sizes where logarithms lose digits.
import { describe, expect, test } from 'vitest'
import * as betaBinomial from '../../../app/statistics/distributions/beta-binomial.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'

/** C(n, k) exactly. */
function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n
  let value = 1n
  for (let i = 1; i <= Math.min(k, n - k); i++) value = (value * BigInt(n - i + 1)) / BigInt(i)
  return value
}

/** A quotient of whole numbers to 17 digits, however small. */
function quotient(numerator: bigint, denominator: bigint): number {
  if (numerator === 0n) return 0
  const digits = Math.max(0, 20 + denominator.toString().length - numerator.toString().length)
  return Number(`${(numerator * 10n ** BigInt(digits)) / denominator}e-${digits}`)
}

/** Weights of 0 … n over their sum, cumulated exactly from both ends, against what a distribution says. */
function compare(
  weights: bigint[],
  law: { density: (d: number) => number; atMost: (d: number) => number; moreThan: (d: number) => number },
  within: number,
) {
  const all = weights.reduce((sum, weight) => sum + weight, 0n)
  let below = 0n
  for (const [d, weight] of weights.entries()) {
    below += weight
    const expected = [quotient(weight, all), quotient(below, all), quotient(all - below, all)]
    for (const [i, actual] of [law.density(d), law.atMost(d), law.moreThan(d)].entries()) {
      const value = expected[i] ?? Number.NaN
      if (value !== 0 && value < 1e-300) continue
      const error = value === 0 ? Math.abs(actual) : Math.abs(actual / value - 1)
      if (!(error <= within)) expect.unreachable(`d = ${d}: ${actual} instead of ${value}`)
    }
  }
}

const draws = [
  { lotSize: 1, nonconforming: 0, sampleSize: 1 },
  { lotSize: 1, nonconforming: 1, sampleSize: 1 },
  { lotSize: 7, nonconforming: 7, sampleSize: 3 },
  { lotSize: 10, nonconforming: 2, sampleSize: 2 },
  { lotSize: 60, nonconforming: 31, sampleSize: 29 },
  { lotSize: 480, nonconforming: 27, sampleSize: 48 },
  { lotSize: 500, nonconforming: 150, sampleSize: 499 },
  { lotSize: 5000, nonconforming: 1200, sampleSize: 150 },
  { lotSize: 100_000, nonconforming: 99_990, sampleSize: 60 },
  { lotSize: 10_000_000, nonconforming: 40, sampleSize: 9_000_000 },
]

describe('the hypergeometric distribution in whole numbers', () => {
  test.each(draws)('%o', (draw) => {
    const { lotSize, nonconforming, sampleSize } = draw
    const size = Math.min(nonconforming, sampleSize)
    // C(D, d)·C(N − D, n − d) in the order of the smaller of D and n, so that the binomial coefficients stay short.
    const [few, many] = nonconforming < sampleSize ? [nonconforming, sampleSize] : [sampleSize, nonconforming]
    const weights: bigint[] = []
    for (let d = 0; d <= size; d++) weights.push(falling(many, d) * falling(lotSize - many, few - d) * choose(few, d))
    compare(
      weights,
      {
        density: (d) => hypergeometric.density(d, draw),
        atMost: (d) => hypergeometric.atMost(d, draw),
        moreThan: (d) => hypergeometric.moreThan(d, draw),
      },
      2e-13,
    )
  })

  test('every lot of up to 12 units', () => {
    for (let lotSize = 0; lotSize <= 12; lotSize++)
      for (let nonconforming = 0; nonconforming <= lotSize; nonconforming++)
        for (let sampleSize = 0; sampleSize <= lotSize; sampleSize++) {
          const draw = { lotSize, nonconforming, sampleSize }
          const all = choose(lotSize, sampleSize)
          for (let d = -1; d <= lotSize + 1; d++) {
            const ways = choose(nonconforming, d) * choose(lotSize - nonconforming, sampleSize - d)
            expect(hypergeometric.density(d, draw)).toBeCloseTo(quotient(ways, all), 14)
          }
        }
  })
})

describe('the binomial distribution in whole numbers', () => {
  test.each([
    { sampleSize: 0, fraction: 0.5 },
    { sampleSize: 1, fraction: 0.25 },
    { sampleSize: 52, fraction: 2 ** -4 },
    { sampleSize: 300, fraction: 1 - 2 ** -10 },
    { sampleSize: 400, fraction: 0.5 },
    { sampleSize: 900, fraction: 3 * 2 ** -9 },
  ])('%o', (trials) => {
    const { sampleSize, fraction } = trials
    const parts = 1024n // each fraction is a whole number of 1024ths
    const p = BigInt(fraction * 1024)
    const weights: bigint[] = []
    for (let d = 0; d <= sampleSize; d++)
      weights.push(choose(sampleSize, d) * p ** BigInt(d) * (parts - p) ** BigInt(sampleSize - d))
    compare(
      weights,
      {
        density: (d) => binomial.density(d, trials),
        atMost: (d) => binomial.atMost(d, trials),
        moreThan: (d) => binomial.moreThan(d, trials),
      },
      2e-13,
    )
  })

  test('a process without nonconforming units and one without others', () => {
    expect([0, 1, 5].map((d) => binomial.density(d, { sampleSize: 5, fraction: 0 }))).toEqual([1, 0, 0])
    expect([0, 4, 5].map((d) => binomial.density(d, { sampleSize: 5, fraction: 1 }))).toEqual([0, 0, 1])
    expect([4, 5].map((d) => binomial.atMost(d, { sampleSize: 5, fraction: 1 }))).toEqual([0, 1])
    expect([-1, 0].map((d) => binomial.moreThan(d, { sampleSize: 5, fraction: 0 }))).toEqual([1, 0])
  })
})

describe('the beta-binomial distribution in whole numbers', () => {
  test.each([
    { sampleSize: 0, a: 1, b: 1 },
    { sampleSize: 48, a: 1, b: 9 },
    { sampleSize: 200, a: 3, b: 97 },
    { sampleSize: 500, a: 40, b: 2 },
    { sampleSize: 300, a: 1000, b: 4000 },
  ])('%o', (trials) => {
    const { sampleSize, a, b } = trials
    const weights: bigint[] = []
    for (let d = 0; d <= sampleSize; d++)
      weights.push(choose(d + a - 1, d) * choose(sampleSize - d + b - 1, sampleSize - d))
    compare(
      weights,
      {
        density: (d) => betaBinomial.density(d, trials),
        atMost: (d) => betaBinomial.atMost(d, trials),
        moreThan: (d) => betaBinomial.moreThan(d, trials),
      },
      1e-12,
    )
  })
})

/** n·(n − 1)·…, k factors; 0 where there are not so many. */
function falling(n: number, k: number): bigint {
  let value = 1n
  for (let i = 0; i < k; i++) value *= BigInt(n - i)
  return value
}
