// What the distributions refuse, what they say then, and what they answer at the very ends of their arguments.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import * as beta from '../../../app/statistics/distributions/beta.ts'
import * as betaBinomial from '../../../app/statistics/distributions/beta-binomial.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'
import * as noncentralT from '../../../app/statistics/distributions/noncentral-t.ts'
import * as normal from '../../../app/statistics/distributions/normal.ts'
import * as poisson from '../../../app/statistics/distributions/poisson.ts'
import * as student from '../../../app/statistics/distributions/student.ts'

const lot = { lotSize: 10, nonconforming: 2, sampleSize: 3 }
const refusals: [() => number, string][] = [
  [() => hypergeometric.density(1.5, lot), 'found must be a whole number, not 1.5'],
  [() => hypergeometric.atMost(Number.NaN, lot), 'found must be a whole number, not NaN'],
  [() => hypergeometric.moreThan(Number.POSITIVE_INFINITY, lot), 'found must be a whole number, not Infinity'],
  [
    () => hypergeometric.density(0, { ...lot, nonconforming: 11 }),
    'nonconforming must be a whole number from 0 to 10, not 11',
  ],
  [
    () => hypergeometric.density(0, { ...lot, sampleSize: 11 }),
    'sampleSize must be a whole number from 0 to 10, not 11',
  ],
  [() => hypergeometric.density(0, { ...lot, lotSize: -1 }), 'lotSize must be a whole number of at least 0, not -1'],
  [() => hypergeometric.quantile(1.1, lot), 'probability must be from 0 to 1, not 1.1'],
  [
    () => binomial.density(0, { sampleSize: 2.5, fraction: 0.1 }),
    'sampleSize must be a whole number of at least 0, not 2.5',
  ],
  [() => binomial.atMost(0, { sampleSize: 2, fraction: -0.1 }), 'fraction must be from 0 to 1, not -0.1'],
  [() => binomial.moreThan(0, { sampleSize: 2, fraction: Number.NaN }), 'fraction must be from 0 to 1, not NaN'],
  [() => binomial.quantile(-1, { sampleSize: 2, fraction: 0.1 }), 'probability must be from 0 to 1, not -1'],
  [() => poisson.atMost(0, { mean: -1 }), 'mean must be from 0 to 1000000000000, not -1'],
  [() => betaBinomial.density(0, { sampleSize: 2, a: 0, b: 1 }), 'a must be from 1e-100 to 1000000000000000, not 0'],
  [() => betaBinomial.atMost(0, { sampleSize: 2, a: 1, b: -3 }), 'b must be from 1e-100 to 1000000000000000, not -3'],
  [() => beta.atMost(1.01, { a: 1, b: 1 }), 'x must be from 0 to 1, not 1.01'],
  [
    () => beta.quantile(0.5, { a: Number.POSITIVE_INFINITY, b: 1 }),
    'a must be from 1e-100 to 1000000000000000, not Infinity',
  ],
  [
    () => betaBinomial.atMost(0, { sampleSize: 1e15, a: 1, b: 1 }),
    'sampleSize must be a whole number from 0 to 10000000, not 1000000000000000',
  ],
  [() => normal.atMost(Number.NEGATIVE_INFINITY), 'z must be a finite number, not -Infinity'],
  [() => normal.quantile(0), 'probability must be above 0 and below 1, not 0'],
  [() => student.quantile(1, { degreesOfFreedom: 3 }), 'probability must be above 0 and below 1, not 1'],
  [() => student.atMost(1, { degreesOfFreedom: 0 }), 'degreesOfFreedom must be from 0.001 to 1000000000000000, not 0'],
  [
    () => noncentralT.atMost(Number.NaN, { degreesOfFreedom: 3, noncentrality: 1 }),
    't must be from -1000000000000000 to',
  ],
  [
    () => noncentralT.atMost(1, { degreesOfFreedom: 3, noncentrality: 1e7 }),
    'noncentrality must be from -1000000 to 1000000',
  ],
  [
    () => noncentralT.quantile(1e-12, { degreesOfFreedom: 0.1, noncentrality: 0 }),
    'probability must have its value between',
  ],
]

describe('a bad argument', () => {
  test.each(refusals)('is refused: %s', (call, message) => {
    expect(call).toThrow(RangeError)
    expect(call).toThrow(message)
  })
})

describe('ends of the domain', () => {
  test('nothing outside the support', () => {
    expect([-1, 3].map((d) => hypergeometric.density(d, lot))).toEqual([0, 0])
    expect([-1, 2, 99].map((d) => hypergeometric.atMost(d, lot))).toEqual([0, 1, 1])
    expect([-1, 2, 99].map((d) => hypergeometric.moreThan(d, lot))).toEqual([1, 0, 0])
    expect([-1, 2].map((d) => betaBinomial.atMost(d, { sampleSize: 2, a: 1, b: 1 }))).toEqual([0, 1])
    expect([-1, 0].map((d) => poisson.moreThan(d, { mean: 0 }))).toEqual([1, 0])
  })

  test('sums that are 0 or 1 end at once, however large the sample', () => {
    const sampleSize = Number.MAX_SAFE_INTEGER
    expect(binomial.atMost(0, { sampleSize, fraction: 0 })).toBe(1)
    expect(binomial.atMost(sampleSize - 1, { sampleSize, fraction: 1 })).toBe(0)
    expect(binomial.atMost(1, { sampleSize, fraction: 0.5 })).toBe(0)
    const lot = { lotSize: sampleSize, nonconforming: 2 ** 52, sampleSize: 2 ** 52 }
    expect(hypergeometric.atMost(5, lot)).toBe(0)
  })

  test('bounded quantiles have both ends', () => {
    expect([0, 1].map((p) => hypergeometric.quantile(p, { lotSize: 10, nonconforming: 8, sampleSize: 5 }))).toEqual([
      3, 5,
    ])
    expect([0, 1].map((p) => binomial.quantile(p, { sampleSize: 7, fraction: 0.2 }))).toEqual([0, 7])
    expect([0, 1].map((p) => betaBinomial.quantile(p, { sampleSize: 7, a: 1, b: 4 }))).toEqual([0, 7])
    expect([0, 1].map((p) => beta.quantile(p, { a: 1, b: 4 }))).toEqual([0, 1])
    expect([0, 1].map((p) => beta.upperQuantile(p, { a: 1, b: 4 }))).toEqual([1, 0])
  })

  test('the beta density at its ends', () => {
    expect([0.5, 1, 2].map((a) => beta.density(0, { a, b: 3 }))).toEqual([Number.POSITIVE_INFINITY, 3, 0])
    expect([0.5, 1, 2].map((b) => beta.density(1, { a: 3, b }))).toEqual([Number.POSITIVE_INFINITY, 3, 0])
  })

  test.each([1e100, 1e200, 1e308])('Student’s tails at %d where t² is no number: that of Cauchy is 1 ÷ (πt)', (t) => {
    expect(student.moreThan(t, { degreesOfFreedom: 1 }) * Math.PI * t).toBeCloseTo(1, 11)
    expect(student.atMost(t, { degreesOfFreedom: 1 })).toBe(1)
    expect(student.density(t, { degreesOfFreedom: 1 })).toBeCloseTo(0, 11)
  })

  // x^(ν/2) ÷ (ν·B(ν/2, ½)) with x = ν ÷ (ν + t²), by mpmath at 40 digits.
  test.each([
    [1e140, 0.36071911169324267],
    [1e300, 0.2495566532717524],
    [1e308, 0.24500173101649436],
  ])('Student’s tail beyond %d with 0.001 degrees of freedom', (t, tail) => {
    expect(student.moreThan(t, { degreesOfFreedom: 0.001 }) / tail).toBeCloseTo(1, 12)
    expect(student.atMost(-t, { degreesOfFreedom: 0.001 }) / tail).toBeCloseTo(1, 12)
  })

  test('Student’s density at 0 is that next to it', () => {
    expect(student.density(0, { degreesOfFreedom: 1 })).toBeCloseTo(1 / Math.PI, 14)
  })
})

describe('any argument in the domain', () => {
  const enormous = fc.double({ min: -100, max: 15, noNaN: true }).map((digits) => 10 ** digits)
  const open = fc.double({ min: 1e-300, max: 1 - 2 ** -53, noNaN: true })

  test('beta and beta-binomial give a probability, never NaN', () => {
    fc.assert(
      fc.property(open, enormous, enormous, fc.integer({ min: 0, max: 300 }), (x, a, b, found) => {
        for (const value of [
          beta.atMost(x, { a, b }),
          beta.moreThan(x, { a, b }),
          beta.quantile(x, { a, b }),
          betaBinomial.density(found, { sampleSize: 300, a, b }),
          betaBinomial.atMost(found, { sampleSize: 300, a, b }),
        ])
          expect(value >= 0 && value <= 1 + 1e-9, `${value}`).toBe(true)
      }),
      { seed: 7, numRuns: 3000 },
    )
  })

  test('both tails of any lot of up to 10,000,000 make 1', () => {
    const lotSize = fc.integer({ min: 0, max: 10_000_000 })
    const part = fc.double({ min: 0, max: 1, noNaN: true })
    fc.assert(
      fc.property(lotSize, part, part, part, (N, first, second, third) => {
        const draw = { lotSize: N, nonconforming: Math.round(first * N), sampleSize: Math.round(second * N) }
        const found = Math.round(third * Math.min(draw.nonconforming, draw.sampleSize))
        const both = hypergeometric.atMost(found, draw) + hypergeometric.moreThan(found, draw)
        expect(Math.abs(both - 1)).toBeLessThan(1e-12)
      }),
      { seed: 7, numRuns: 500 },
    )
  })

  test('t gives a probability, never NaN', () => {
    const any = fc.double({ min: -6, max: 6, noNaN: true }).map((x) => Math.sinh(2.4 * x))
    fc.assert(
      fc.property(any, any, fc.double({ min: -2, max: 9, noNaN: true }), (t, noncentrality, digits) => {
        const degreesOfFreedom = Math.min(1e9, Math.max(0.01, 10 ** digits))
        const value = noncentralT.atMost(t, { degreesOfFreedom, noncentrality })
        const rest = noncentralT.moreThan(t, { degreesOfFreedom, noncentrality })
        expect(Math.abs(value + rest - 1), `${value}, ${rest}`).toBeLessThan(1e-9)
      }),
      { seed: 7, numRuns: 300 },
    )
  })
})
