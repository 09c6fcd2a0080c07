// Intervals and one-sided bounds on a fraction, against printed handbook values, arbitrary-precision sums and their coverage.
import { describe, expect, test } from 'vitest'
import { lowerBoundOfFraction, upperBoundOfFraction } from '../../../app/statistics/bounds/fraction.ts'
import { type IntervalMethod, intervalMethods, intervalOfFraction } from '../../../app/statistics/bounds/interval.ts'

const mpmath = 'mpmath, tails summed at 50 digits'
const qbeta = 'base R 4.2, qbeta'

// n, d, confidence, lower and upper bound (null where the source gives none), relative tolerance, source.
const oneSided: [number, number, number, number | null, number, number, string][] = [
  [20, 4, 0.95, 0.071354, 0.401029, 3e-6, 'NIST e-Handbook 7.2.4.2 (from memory)'],
  [20, 4, 0.95, 0.0713538843086182, 0.4010281173319746, 1e-12, qbeta],
  [80, 2, 0.95, 0.004460079163881956, 0.0766108767537717, 1e-12, qbeta],
  [10, 0, 0.95, 0, 0.25887, 2e-5, 'table of zero found, 1 − 0.05^(1/n)'],
  [59, 0, 0.95, 0, 0.04951, 1e-4, 'table of zero found: 59 is the first below 5 %'],
  [299, 0, 0.95, 0, 0.00997, 1e-3, 'table of zero found: 299 is the first below 1 %'],
  [480, 3, 0.95, null, 0.0161, 4e-3, 'two invented suppliers compared, 3 of 480, by qbeta'],
  [379, 322, 0.975, 0.8096, 0.8841, 1e-4, 'a survey of cords from little-known sources, by qbeta'],
  [10_000_000, 1, 0.95, 5.129329425600043e-9, 4.743863630371368e-7, 1e-12, mpmath],
  [10_000_000, 3, 0.999999, 1.8254284772046887e-9, 2.135043737375062e-6, 1e-12, mpmath],
  [10_000_000, 9_999_999, 0.9, 0.9999996110280392, 0.9999999894639485, 1e-12, mpmath],
  [50, 25, 0.999999999999, 0.09993348799934172, 0.9000665120006582, 1e-12, mpmath],
  [50, 1, 1e-6, 0.24142242497081623, 2.8584498151878315e-5, 1e-12, mpmath],
  [7, 3, 0.9999999999, 0.0001419184814807252, 0.9986988654892152, 1e-12, mpmath],
  [1, 1, 0.95, 0.05, 1, 1e-14, 'arithmetic by hand'],
  [0, 0, 0.95, 0, 1, 0, 'the rule that no test gives no knowledge'],
]

const twoSided: [IntervalMethod, number, number, number, number, number | null, number, string][] = [
  ['clopper-pearson', 20, 4, 0.9, 0.0713539, 0.4010281, 1e-6, 'NIST e-Handbook 7.2.4.2, recomputed in base R'],
  ['clopper-pearson', 80, 2, 0.95, 0.0030421, 0.0874072, 2e-5, qbeta],
  ['wilson', 200, 26, 0.95, 0.090282, 0.183664, 6e-6, 'NIST e-Handbook 7.2.4.1, recomputed in base R'],
  ['wilson', 200, 26, 0.9, 0.095773, null, 6e-6, 'NIST e-Handbook 7.2.4.1, one-sided 95 %, recomputed in base R'],
  ['wilson', 10_000_000, 3, 0.999999, 3.0380442301997514e-8, 2.962425094168396e-6, 1e-12, mpmath],
  ['wilson', 50, 1, 1e-6, 0.019999975185661167, 0.020000024814368994, 1e-12, mpmath],
  ['mid-p', 10_000_000, 3, 0.999999, 1.8226541520113767e-9, 2.149431781886549e-6, 1e-12, mpmath],
  ['mid-p', 50, 25, 0.999999999999, 0.09948705438369757, 0.9005129456163025, 1e-12, mpmath],
  ['mid-p', 50, 49, 1e-6, 0.9772155364696029, 0.9772155942282846, 1e-12, mpmath],
  ['jeffreys', 80, 2, 0.95, 0.005230713592440875, 0.07777877869165821, 1e-12, qbeta],
]

describe('bounds on the fraction of a process', () => {
  test.each(oneSided)('%i, %i, %d: one-sided as in $6', (sampleSize, found, confidence, lower, upper, within) => {
    closeTo(upperBoundOfFraction({ sampleSize, found, confidence }), upper, within)
    closeTo(lowerBoundOfFraction({ sampleSize, found, confidence }), lower, within)
  })

  test.each(twoSided)('%s, %i, %i, %d: as in $7', (method, sampleSize, found, confidence, lower, upper, within) => {
    const interval = intervalOfFraction(method, { sampleSize, found, confidence })
    closeTo(interval.lower, lower, within)
    closeTo(interval.upper, upper, within)
  })

  test('every method ends at 0 with none found and at 1 with all, also untested', () => {
    for (const method of intervalMethods)
      for (const sampleSize of [0, 1, 40]) {
        expect(intervalOfFraction(method, { sampleSize, found: 0, confidence: 0.95 }).lower).toBe(0)
        expect(intervalOfFraction(method, { sampleSize, found: sampleSize, confidence: 0.95 }).upper).toBe(1)
      }
  })

  test.each([1, 2, 7, 20, 60])('of %i units the exact bounds cover every fraction as often as they say', (n) => {
    for (const confidence of [0.8, 0.95]) {
      const counts = Array.from({ length: n + 1 }, (_, found) => ({ sampleSize: n, found, confidence }))
      const uppers = counts.map(upperBoundOfFraction)
      const lowers = counts.map(lowerBoundOfFraction)
      const two = counts.map((evidence) => intervalOfFraction('clopper-pearson', evidence))
      // Coverage falls in jumps just beside a bound, so those fractions are the ones to try.
      for (const p of [...uppers, ...lowers].flatMap((bound) => [bound * (1 - 1e-9), bound, bound * (1 + 1e-9)])) {
        if (p <= 0 || p >= 1) continue
        const chance = chances(n, p)
        const sum = (holds: (d: number) => boolean) => chance.reduce((all, each, d) => all + (holds(d) ? each : 0), 0)
        expect(
          sum((d) => uppers[d]! >= p),
          `upper at ${p}`,
        ).toBeGreaterThanOrEqual(confidence - 1e-7)
        expect(
          sum((d) => lowers[d]! <= p),
          `lower at ${p}`,
        ).toBeGreaterThanOrEqual(confidence - 1e-7)
        expect(sum((d) => two[d]!.lower <= p && p <= two[d]!.upper)).toBeGreaterThanOrEqual(confidence - 1e-7)
      }
    }
  })

  test.each([
    [{ sampleSize: -1, found: 0, confidence: 0.95 }, 'sampleSize must be a whole number of at least 0, not -1'],
    [{ sampleSize: 20, found: 21, confidence: 0.95 }, 'found must be a whole number from 0 to 20, not 21'],
    [{ sampleSize: 20, found: 1.5, confidence: 0.95 }, 'found must be a whole number from 0 to 20, not 1.5'],
    [{ sampleSize: 20, found: 1, confidence: 1 }, 'confidence must be above 0 and below 1, not 1'],
    [{ sampleSize: 20, found: 1, confidence: Number.NaN }, 'confidence must be above 0 and below 1, not NaN'],
    [{ sampleSize: Number.POSITIVE_INFINITY, found: 1, confidence: 0.95 }, 'sampleSize must be'],
  ])('refuses %o', (evidence, message) => {
    expect(() => upperBoundOfFraction(evidence)).toThrow(RangeError)
    expect(() => upperBoundOfFraction(evidence)).toThrow(message)
    expect(() => lowerBoundOfFraction(evidence)).toThrow(message)
    for (const method of intervalMethods) expect(() => intervalOfFraction(method, evidence)).toThrow(message)
  })
})

function closeTo(actual: number, expected: number | null, within: number): void {
  if (expected === null) return
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(within * Math.abs(expected))
}

/** The binomial distribution by its recurrence from the most likely count, none of the engine's own. */
function chances(n: number, p: number): number[] {
  const weights = new Array<number>(n + 1).fill(0)
  const mode = Math.min(n, Math.floor((n + 1) * p))
  weights[mode] = 1
  for (let d = mode; d < n; d++) weights[d + 1] = (weights[d]! * ((n - d) / (d + 1)) * p) / (1 - p)
  for (let d = mode; d > 0; d--) weights[d - 1] = (weights[d]! * (d / (n - d + 1)) * (1 - p)) / p
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return weights.map((weight) => weight / total)
}
