// Whether margins look like a normal sample, before a method that needs that is used on them.
import { between, count } from '../check.ts'
import { logAtMost } from '../distributions/normal.ts'

/** The test's statistic, the one adjusted for the sample size, and the chance of so large a one if margins are normal. */
export type AndersonDarling = { statistic: number; adjusted: number; pValue: number }

/** Fewest values the approximation of the p-value is made for. */
export const leastForNormality = 8

/**
 * Anderson–Darling test that values come from a normal distribution, mean and standard deviation being estimated.
 *
 * A small p-value says that they do not; a large one with few values says little. The sign of the values plays no part.
 *
 * @param values at least 8 numbers from −1e9 to 1e9, not all equal, e.g. margins in dB
 * @returns A², A²(1 + 0.75/n + 2.25/n²) and its p-value; beyond A²* = 10 the p-value stays at that of 10, 4e-24
 * @throws RangeError that names what is wrong
 *
 * Source: M. A. Stephens in R. B. D'Agostino & M. A. Stephens (1986), Goodness-of-Fit Techniques, table 4.9 (from memory).
 * Logarithms of both tails are used, as A² would be infinite where a value lies 8 standard deviations out.
 *
 * @example andersonDarling([156, 162, 168, 182, 186, 190, 190, 196, 202, 210, 214, 220, 226, 230, 230, 236, 236, 242, 246, 270])
 *   // A² 0.2142, adjusted 0.2234, p 0.826
 */
export function andersonDarling(values: readonly number[]): AndersonDarling {
  const { mean, standardDeviation } = momentsOf(values)

  const n = values.length
  const z = Float64Array.from(values, (value) => (value - mean) / standardDeviation).sort()
  const statistic = andersonDarlingOf(
    n,
    (i) => logAtMost(z[i]!),
    (i) => logAtMost(-z[i]!),
  ) // i from 0 to n − 1
  const adjusted = statistic * (1 + 0.75 / n + 2.25 / (n * n))
  return { statistic, adjusted, pValue: pValueOf(adjusted) }
}

/**
 * Anderson–Darling statistic of sorted values, from the logarithms of the distribution function and of its complement.
 *
 * @param n values
 * @param logBelow logarithm of F at the value of rank i, from 0
 * @param logAbove logarithm of 1 − F there
 */
export function andersonDarlingOf(n: number, logBelow: (i: number) => number, logAbove: (i: number) => number): number {
  let sum = 0
  for (let i = 0; i < n; i++) sum += (2 * i + 1) * (logBelow(i) + logAbove(n - 1 - i))
  return -n - sum / n
}

/** Mean, standard deviation (n − 1 in it) and skewness of a sample; throws RangeError for fewer than 8 or equal values. */
export function momentsOf(values: readonly number[]): { mean: number; standardDeviation: number; skewness: number } {
  count('values.length', values.length, leastForNormality)
  for (const [index, value] of values.entries()) between(`values[${index}]`, value, -1e9, 1e9)
  const n = values.length
  const first = values[0] ?? 0 // differences from it are exact where all are equal, their mean would not be
  const mean = first + values.reduce((sum, value) => sum + (value - first) / n, 0)
  const power = (exponent: number) => values.reduce((sum, value) => sum + (value - mean) ** exponent, 0)
  const standardDeviation = Math.sqrt(power(2) / (n - 1))
  if (!(standardDeviation > 0)) throw new RangeError(`values must not all be equal, not ${n} times ${values[0]}`)
  return { mean, standardDeviation, skewness: power(3) / n / (power(2) / n) ** 1.5 }
}

function pValueOf(adjusted: number): number {
  const a = Math.min(adjusted, 10)
  if (a < 0.2) return -Math.expm1(-13.436 + 101.14 * a - 223.73 * a * a)
  if (a < 0.34) return -Math.expm1(-8.318 + 42.796 * a - 59.938 * a * a)
  if (a < 0.6) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a)
  return Math.exp(1.2937 - 5.709 * a + 0.0186 * a * a)
}
