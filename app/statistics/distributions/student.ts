// Student's t distribution.
import { between, finite, openProbability } from '../check.ts'
import { betaLogit, logBeta } from '../incomplete-beta.ts'

/** Degrees of freedom ν, from 1e-3 to 1e15, not necessarily whole. */
export type Freedom = { degreesOfFreedom: number }

/** Density at t, any finite number. Relative error below 1e-12 down to 1e-300. */
export function density(t: number, freedom: Freedom): number {
  check(t, freedom)

  const least = 1e-100 // below it the density is that at 0, and t² has no digits
  return Math.exp(tails(Math.max(Math.abs(t), least), freedom).power) / Math.max(Math.abs(t), least)
}

/**
 * Probability of t or less. Relative error below 1e-12 down to 1e-300.
 *
 * @param t any finite number
 * @throws RangeError that names the argument out of range
 *
 * @example atMost(-1.812, { degreesOfFreedom: 10 }) // 0.0500
 */
export function atMost(t: number, freedom: Freedom): number {
  check(t, freedom)

  if (t === 0) return 0.5
  const { lower, upper } = tails(t, freedom)
  return t < 0 ? Math.exp(lower) / 2 : 0.5 + Math.exp(upper) / 2
}

/** Probability above t, with the promise of {@link atMost} for its own tail. */
export function moreThan(t: number, freedom: Freedom): number {
  return atMost(-t, freedom)
}

/**
 * The value that is not exceeded with the given probability. Relative error below 1e-10, next to 0 and in both tails.
 *
 * @param probability above 0 and below 1
 * @returns t; infinite where it is beyond the greatest number, as with few degrees of freedom in the far tail
 * @throws RangeError that names the argument out of range
 *
 * @example quantile(0.95, { degreesOfFreedom: 10 }) // 1.8125
 */
export function quantile(probability: number, freedom: Freedom): number {
  openProbability('probability', probability)
  check(0, freedom)

  if (probability === 0.5) return 0
  const tail = Math.min(probability, 1 - probability)
  const { degreesOfFreedom } = freedom
  const logit = betaLogit(2 * tail, 1 - 2 * tail, { a: degreesOfFreedom / 2, b: 0.5 })
  const size = Math.sqrt(degreesOfFreedom) * Math.exp(-logit / 2)
  return probability < 0.5 ? -size : size
}

function check(t: number, { degreesOfFreedom }: Freedom): void {
  finite('t', t)
  between('degreesOfFreedom', degreesOfFreedom, 1e-3, 1e15)
}

/** Beyond so many times √ν, t² is soon no number any more, and both tails together fall as t to the power −ν. */
const farthest = 1e150

/** Both tails of ν ÷ (ν + t²), a beta variable whose lower tail is both tails of t. */
function tails(t: number, { degreesOfFreedom }: Freedom): { lower: number; upper: number; power: number } {
  const root = Math.sqrt(degreesOfFreedom)
  const beyond = Math.max(1, Math.abs(t) / (farthest * root))
  const ratio = t / beyond / root
  const square = ratio * ratio
  const near = logBeta(1 / (1 + square), square / (1 + square), { a: degreesOfFreedom / 2, b: 0.5 })
  if (beyond === 1) return near
  const fall = degreesOfFreedom * Math.log(beyond)
  return {
    lower: near.lower - fall,
    upper: Math.log(-Math.expm1(near.lower - fall)),
    power: near.power - fall,
  }
}
