// Plans by variables against the military standard's table, arbitrary-precision integrals and brute force.
import { describe, expect, test } from 'vitest'
import {
  acceptanceByVariables,
  acceptanceByVariablesKnownSigma,
  acceptsByVariables,
} from '../../../app/statistics/variables/acceptance.ts'
import { designVariables, designVariablesKnownSigma } from '../../../app/statistics/variables/design.ts'
import { toleranceBound, toleranceFactor } from '../../../app/statistics/variables/tolerance.ts'

// MIL-STD-414 Table B-1, letters C to Q (sizes as there); k from memory, acceptance at the quality level recomputed in base R.
const sizes = [4, 5, 7, 10, 15, 20, 25, 30, 35, 40, 50, 75, 100, 150, 200]
const military = [
  {
    level: 0.01,
    k: [1.45, 1.53, 1.62, 1.72, 1.79, 1.82, 1.85, 1.86, 1.89, 1.89, 1.93, 1.98, 2.0, 2.03, 2.04],
    acceptance: [901, 898, 901, 898, 908, 923, 930, 942, 942, 953, 953, 960, 971, 981, 989],
  },
  {
    level: 0.025,
    k: [1.17, 1.24, 1.33, 1.41, 1.47, 1.51, 1.53, 1.55, 1.57, 1.58, 1.61, 1.65, 1.67, 1.7, 1.7],
    acceptance: [901, 899, 898, 900, 912, 921, 932, 938, 942, 948, 951, 961, 970, 979, 991],
  },
  {
    level: 0.04,
    k: [1.01, 1.07, 1.15, 1.23, 1.3, 1.33, 1.35, 1.36, 1.39, 1.39, 1.42, 1.46, 1.48, 1.51, 1.52],
    acceptance: [899, 900, 901, 902, 908, 920, 930, 942, 939, 950, 952, 961, 970, 978, 987],
  },
]

// n, k, fraction, acceptance. Source: mpmath, the definition integrated over the scale at 35 digits.
const integrated: [number, number, number, number][] = [
  [2, 1.5, 0.01, 0.839384701573685],
  [2, -3, 0.4, 0.954564473585155],
  [3, 50, 0.001, 0.00394431218055168],
  [10, 1.72, 0.999, 7.08845843768878e-32],
  [20, 8, 0.02, 2.56801698946896e-8],
  [50, 2, 0.3, 1.05457208361933e-10],
  [5000, 1.7, 0.05, 0.00631893159960081],
  [200_000, 2, 0.0228, 0.406141869947113],
]

describe('acceptance by variables', () => {
  const rows = military.flatMap(({ level, k, acceptance }) =>
    sizes.map((sampleSize, i) => ({ level, sampleSize, k: k[i] ?? 0, expected: (acceptance[i] ?? 0) / 1000 })),
  )
  test.each(rows)('$sampleSize margins, k $k at $level', ({ level, sampleSize, k, expected }) => {
    expect(acceptanceByVariables({ sampleSize, k, fraction: level })).toBeCloseTo(expected, 3)
  })

  test.each(integrated)('%i margins, k %d at %d', (sampleSize, k, fraction, expected) => {
    expect(Math.abs(acceptanceByVariables({ sampleSize, k, fraction }) / expected - 1)).toBeLessThan(1e-10)
  })

  // Source: Φ(√n (z − k)) in base R 4.2, pnorm(sqrt(8) * (qnorm(.98) - 1.8)) and pnorm(sqrt(20) * (qnorm(.97) - 2)).
  test('with a known standard deviation', () => {
    expect(acceptanceByVariablesKnownSigma({ sampleSize: 8, k: 1.8, fraction: 0.02 })).toBeCloseTo(0.76353203498018, 12)
    expect(acceptanceByVariablesKnownSigma({ sampleSize: 20, k: 2, fraction: 0.03 })).toBeCloseTo(0.29697969073933, 12)
  })

  // Source: a scenario of the trade, 10 margins, mean 4.2 dB, s 1.1, own limit 1.0: 2.90909 against k(95/95) = 2.91096.
  test('a sample misses 95 % with 95 % confidence by a hair', () => {
    const sample = { mean: 4.2, standardDeviation: 1.1, limit: 1 }
    const k = toleranceFactor({ sampleSize: 10, coverage: 0.95, confidence: 0.95 })
    expect(acceptsByVariables({ ...sample, k })).toBe(false)
    expect(acceptsByVariables({ ...sample, k: 2.909 })).toBe(true)
    expect(acceptsByVariables({ ...sample, standardDeviation: 0, k })).toBe(true)
    expect(() => acceptsByVariables({ ...sample, k: Number.NaN })).toThrow(
      'k must be from -1000000 to 1000000, not NaN',
    )
  })

  test('nothing below the limit is always accepted, everything never, and a half by chance at k = 0', () => {
    for (const acceptance of [acceptanceByVariables, acceptanceByVariablesKnownSigma]) {
      expect(acceptance({ sampleSize: 5, k: 1, fraction: 0 })).toBe(1)
      expect(acceptance({ sampleSize: 5, k: 1, fraction: 1 })).toBe(0)
      expect(acceptance({ sampleSize: 5, k: 0, fraction: 0.5 })).toBeCloseTo(0.5, 14)
    }
  })

  test.each([
    [{ sampleSize: 1, k: 1, fraction: 0.1 }, 'sampleSize must be a whole number of at least 2, not 1'],
    [{ sampleSize: 5, k: Number.NaN, fraction: 0.1 }, 'k must be from -1000000 to 1000000, not NaN'],
    [{ sampleSize: 5, k: 1, fraction: 1.1 }, 'fraction must be from 0 to 1, not 1.1'],
  ])('refuses %o', (trial, message) => expect(() => acceptanceByVariables(trial)).toThrow(message))
})

describe('designs by variables', () => {
  const tasks: [number, number, number, number][] = [
    [0.01, 0.05, 0.08, 0.1],
    [0.02, 0.05, 0.1, 0.1],
    [0.001, 0.1, 0.2, 0.1],
    [0.4, 0.05, 0.6, 0.05],
    [0.05, 0.01, 0.1, 0.2],
    [0.01, 0.5, 0.02, 0.5],
  ]

  test.each(tasks)(
    '%d at %d, %d at %d: the smallest of all sample sizes',
    (good, producersRisk, poor, consumersRisk) => {
      const risks = {
        producer: { fraction: good, risk: producersRisk },
        consumer: { fraction: poor, risk: consumersRisk },
      }
      const plan = designVariables(risks)
      expect(acceptanceByVariables({ ...plan, fraction: poor })).toBeCloseTo(consumersRisk, 12)
      expect(acceptanceByVariables({ ...plan, fraction: good })).toBeGreaterThanOrEqual(1 - producersRisk - 1e-12)
      // Brute force: no smaller n has a k that keeps both, k being taken where the consumer's risk is just kept.
      for (let sampleSize = 2; sampleSize < plan.sampleSize; sampleSize++) {
        let kept = -50
        let broken = 50
        for (let step = 0; step < 60; step++) {
          const k = (kept + broken) / 2
          if (acceptanceByVariables({ sampleSize, k, fraction: poor }) > consumersRisk) kept = k
          else broken = k
        }
        expect(acceptanceByVariables({ sampleSize, k: broken, fraction: good })).toBeLessThan(1 - producersRisk)
      }
      const known = designVariablesKnownSigma(risks)
      expect(known.sampleSize).toBeLessThanOrEqual(plan.sampleSize)
      expect(acceptanceByVariablesKnownSigma({ ...known, fraction: poor })).toBeCloseTo(consumersRisk, 12)
      expect(acceptanceByVariablesKnownSigma({ ...known, fraction: good })).toBeGreaterThanOrEqual(
        1 - producersRisk - 1e-12,
      )
    },
  )

  // Source: MIL-STD-414 example in a textbook (from memory): letter O, n 100 at 1 %: tightened k 2.14 accepts .854.
  test('a tightened plan accepts less often', () => {
    expect(acceptanceByVariables({ sampleSize: 100, k: 2.14, fraction: 0.01 })).toBeCloseTo(0.854, 3)
  })

  test('what no plan can do is refused by name', () => {
    const producer = { fraction: 0.05, risk: 0.05 }
    const at = (fraction: number, risk = 0.1) => ({ producer, consumer: { fraction, risk } })
    for (const design of [designVariables, designVariablesKnownSigma]) {
      expect(() => design(at(0.05))).toThrow('consumer.fraction must be above producer.fraction 0.05, not 0.05')
      expect(() => design(at(0.05001))).toThrow('consumer.fraction must be farther above producer.fraction')
      expect(() => design(at(0.1, 0))).toThrow('consumer.risk must be above 0 and below 1, not 0')
      expect(() => design(at(1))).toThrow('consumer.fraction must be above 0 and below 1, not 1')
    }
  })
})

describe('tolerance factors', () => {
  // One-sided, confidence 0.95. Source: tables of Owen and of Natrella, NBS Handbook 91 (from memory), to their digits.
  const coverages = [0.9, 0.95, 0.99]
  test.each([
    [5, 3.407, 4.203, 5.741],
    [10, 2.355, 2.911, 3.981],
    [15, 2.068, 2.566, 3.52],
    [20, 1.926, 2.396, 3.295],
    [25, 1.838, 2.292, 3.158],
    [30, 1.777, 2.22, 3.064],
    [50, 1.646, 2.065, 2.862],
    [100, 1.527, 1.927, 2.684],
  ])('for %i margins', (sampleSize, ...factors) => {
    for (const [i, coverage] of coverages.entries())
      expect(toleranceFactor({ sampleSize, coverage, confidence: 0.95 })).toBeCloseTo(factors[i] ?? 0, 3)
  })

  // n, coverage, confidence, factor. Source: mpmath at 35 digits; 43, 0.9, 0.99 is the exact value behind the NIST
  // e-Handbook's approximate 1.8752 in 7.2.6.3.
  test.each([
    [43, 0.9, 0.99, 1.8739536058512],
    [40, 0.9, 0.99, 1.90172591361344],
    [2, 0.9, 0.95, 20.581467624245],
    [2, 0.5, 0.999, 225.0783385583],
    [10, 0.95, 0.05, 1.01729883839294],
    [10, 0.05, 0.9, -1.14377752705225],
    [300, 0.999, 0.95, 3.33519118854723],
    [100, 0.9, 0.999999999, 2.42285950025979],
  ])('for %i margins, coverage %d, confidence %d', (sampleSize, coverage, confidence, factor) => {
    expect(Math.abs(toleranceFactor({ sampleSize, coverage, confidence }) / factor - 1)).toBeLessThan(1e-10)
  })

  test('the bound is the mean less so many standard deviations', () => {
    const task = { sampleSize: 10, coverage: 0.95, confidence: 0.95 }
    expect(toleranceBound({ ...task, mean: 4.2, standardDeviation: 1.1 })).toBeCloseTo(4.2 - 1.1 * 2.9109634130782, 10)
    expect(() => toleranceBound({ ...task, mean: 1, standardDeviation: 0 })).toThrow(
      'standardDeviation must be from 1e-9 to 1000000000, not 0',
    )
    expect(() => toleranceFactor({ ...task, sampleSize: 1 })).toThrow('sampleSize must be a whole number of at least 2')
    expect(() => toleranceFactor({ ...task, coverage: 1 })).toThrow('coverage must be above 0 and below 1, not 1')
  })
})
