// Values that books and standards print, to the digits they print.
import { describe, expect, test } from 'vitest'
import * as beta from '../../../app/statistics/distributions/beta.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'
import * as noncentralT from '../../../app/statistics/distributions/noncentral-t.ts'
import * as normal from '../../../app/statistics/distributions/normal.ts'
import * as poisson from '../../../app/statistics/distributions/poisson.ts'
import * as student from '../../../app/statistics/distributions/student.ts'

/** One-sided tolerance factor: a quantile of the noncentral t over √n. */
function toleranceFactor(sampleSize: number, coverage: number, confidence: number): number {
  const law = { degreesOfFreedom: sampleSize - 1, noncentrality: normal.quantile(coverage) * Math.sqrt(sampleSize) }
  return noncentralT.quantile(confidence, law) / Math.sqrt(sampleSize)
}

const draw = { lotSize: 300, nonconforming: 150, sampleSize: 60 }
const handbook = 'NIST/SEMATECH e-Handbook 6.2.3.2, plan 52, 3 (printed digits from memory)'
const owen = 'one-sided tolerance factors as in Natrella (1963) and ISO 16269-6 (from memory)'

const values = [
  {
    name: 'hypergeometric tail',
    value: hypergeometric.moreThan(59, draw),
    printed: 5.111204798e-22,
    half: 5e-32,
    source: 'R, nmath/phyper.c, report 6772',
  },
  {
    name: 'P(accept) at 1 %',
    value: binomial.atMost(3, { sampleSize: 52, fraction: 0.01 }),
    printed: 0.998,
    half: 0.0005,
    source: handbook,
  },
  {
    name: 'P(accept) at 3 %',
    value: binomial.atMost(3, { sampleSize: 52, fraction: 0.03 }),
    printed: 0.93,
    half: 0.0005,
    source: handbook,
  },
  {
    name: 'P(accept) at 6 %',
    value: binomial.atMost(3, { sampleSize: 52, fraction: 0.06 }),
    printed: 0.62,
    half: 0.0005,
    source: handbook,
  },
  {
    name: 'P(accept) at 8 %',
    value: binomial.atMost(3, { sampleSize: 52, fraction: 0.08 }),
    printed: 0.394,
    half: 0.0005,
    source: handbook,
  },
  {
    name: 'upper limit of 4 in 20',
    value: beta.quantile(0.95, { a: 5, b: 16 }),
    printed: 0.401029,
    half: 1.5e-6,
    source: 'NIST/SEMATECH e-Handbook 7.2.4.2 (its last digit is one too high)',
  },
  {
    name: 'lower limit of 4 in 20',
    value: beta.quantile(0.05, { a: 4, b: 17 }),
    printed: 0.071354,
    half: 5e-7,
    source: 'NIST/SEMATECH e-Handbook 7.2.4.2',
  },
  {
    name: 'plan 500, 3 at 1 per 100',
    value: poisson.atMost(3, { mean: 5 }),
    printed: 0.26,
    half: 0.0055,
    source: '7 CFR 42.140',
  },
  {
    name: 'plan 168 at 6.5 per 100',
    value: poisson.atMost(16, { mean: 10.92 }),
    printed: 0.95,
    half: 0.005,
    source: '7 CFR 42.141',
  },
  {
    name: 'normal 0.975 point',
    value: normal.quantile(0.975),
    printed: 1.959963985,
    half: 5e-10,
    source: 'Abramowitz & Stegun, table 26.5 (from memory)',
  },
  {
    name: 'normal tail at −5',
    value: normal.atMost(-5),
    printed: 2.866515719e-7,
    half: 5e-17,
    source: 'Abramowitz & Stegun, table 26.2 (from memory)',
  },
  {
    name: 'conformance probability',
    value: normal.atMost(1.4),
    printed: 0.9192,
    half: 0.00005,
    source: 'JCGM 106:2012, one-sided example (from memory)',
  },
  {
    name: 't 0.95, 10',
    value: student.quantile(0.95, { degreesOfFreedom: 10 }),
    printed: 1.812,
    half: 0.0005,
    source: 'any table of t (from memory)',
  },
  {
    name: 't 0.975, 1',
    value: student.quantile(0.975, { degreesOfFreedom: 1 }),
    printed: 12.706,
    half: 0.0005,
    source: 'any table of t (from memory)',
  },
  {
    name: 't 0.995, 30',
    value: student.quantile(0.995, { degreesOfFreedom: 30 }),
    printed: 2.75,
    half: 0.0005,
    source: 'any table of t (from memory)',
  },
  { name: 'k for 5, 0.95, 0.95', value: toleranceFactor(5, 0.95, 0.95), printed: 4.203, half: 0.0005, source: owen },
  { name: 'k for 10, 0.90, 0.95', value: toleranceFactor(10, 0.9, 0.95), printed: 2.355, half: 0.0005, source: owen },
  { name: 'k for 50, 0.99, 0.95', value: toleranceFactor(50, 0.99, 0.95), printed: 2.862, half: 0.0005, source: owen },
  {
    name: 'k for 43, 0.90, 0.99',
    value: toleranceFactor(43, 0.9, 0.99),
    printed: 1.874,
    half: 0.0005,
    source: 'NIST/SEMATECH e-Handbook 7.2.6.3, exact factor (from memory)',
  },
]

describe('printed values', () => {
  test.each(values)('$name, $source', ({ value, printed, half }) => {
    expect(Math.abs(value - printed)).toBeLessThanOrEqual(half)
  })
})

describe('identities', () => {
  // Each follows from the definitions, and ties one distribution to another computed in another way.
  test('binomial tails are beta probabilities', () => {
    for (const sampleSize of [1, 20, 333, 4000])
      for (const fraction of [1e-9, 0.003, 0.5, 0.97])
        for (let found = 0; found < sampleSize; found += Math.ceil(sampleSize / 7)) {
          const value = beta.atMost(fraction, { a: found + 1, b: sampleSize - found })
          if (value > 1e-300) expect(binomial.moreThan(found, { sampleSize, fraction }) / value).toBeCloseTo(1, 12)
        }
  })

  test('t without noncentrality is Student’s', () => {
    for (const degreesOfFreedom of [0.5, 1, 4.5, 100, 1e6])
      for (const t of [-30, -2, -1e-3, 0, 0.7, 12]) {
        const central = student.atMost(t, { degreesOfFreedom })
        if (central > 1e-290)
          expect(noncentralT.atMost(t, { degreesOfFreedom, noncentrality: 0 }) / central).toBeCloseTo(1, 11)
      }
  })

  test('the density of the noncentral t is the slope of its probability', () => {
    for (const [t, degreesOfFreedom, noncentrality] of [
      [3, 5, 2],
      [-1, 2, 1.5],
      [110, 60, 100],
    ] as const) {
      const law = { degreesOfFreedom, noncentrality }
      const step = 1e-3
      const at = (k: number) => noncentralT.atMost(t + k * step, law)
      const slope = (at(-2) - 8 * at(-1) + 8 * at(1) - at(2)) / (12 * step)
      expect(noncentralT.density(t, law) / slope).toBeCloseTo(1, 8)
    }
  })

  test('quantiles invert their tails', () => {
    for (const probability of [1e-9, 0.02, 0.5, 0.8, 0.999999]) {
      expect(normal.atMost(normal.quantile(probability)) / probability).toBeCloseTo(1, 12)
      for (const shape of [
        { a: 0.5, b: 0.5 },
        { a: 1, b: 300 },
        { a: 2e6, b: 7 },
      ]) {
        expect(beta.atMost(beta.quantile(probability, shape), shape) / probability).toBeCloseTo(1, 8)
      }
      const upper = beta.upperQuantile(probability, { a: 1, b: 300 })
      expect(beta.moreThan(upper, { a: 1, b: 300 }) / probability).toBeCloseTo(1, 11)
      for (const law of [
        { degreesOfFreedom: 1, noncentrality: -3 },
        { degreesOfFreedom: 49, noncentrality: 9.06 },
      ])
        expect(noncentralT.atMost(noncentralT.quantile(probability, law), law) / probability).toBeCloseTo(1, 9)
    }
  })

  test('the logarithm of the normal tail goes on where the tail itself is 0', () => {
    expect(normal.atMost(-40)).toBe(0)
    expect(normal.logAtMost(-40)).toBeCloseTo(-804.608442013754, 9) // pnorm(-40, log.p = TRUE), base R 4.2
    expect(normal.logAtMost(-1e10)).toBeCloseTo(-5e19, -5)
    expect(normal.logAtMost(9)).toBe(-normal.atMost(-9))
  })
})
