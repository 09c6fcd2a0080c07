// The beta distribution: the fraction nonconforming as a prior and a posterior see it, and the limits of Clopper and Pearson.
import { between, probability as probabilityFrom0To1 } from '../check.ts'
import { betaLogit, fromLogit, logBeta, type Shape } from '../incomplete-beta.ts'

/**
 * Density at x. Relative error below 1e-12 down to 1e-300; at 0 and 1 it may be infinite.
 *
 * @param x from 0 to 1
 * @param shape a and b, from 1e-100 to 1e15
 * @throws RangeError that names the argument out of range
 */
export function density(x: number, shape: Shape): number {
  check(x, shape)

  if (x === 0) return atEnd(shape.a, shape.b)
  if (x === 1) return atEnd(shape.b, shape.a)
  return Math.exp(logBeta(x, 1 - x, shape).power) / x / (1 - x)
}

/**
 * Probability of x or less, the regularised incomplete beta function. Relative error below 1e-12 down to 1e-300.
 *
 * @param x from 0 to 1
 * @param shape a and b, from 1e-100 to 1e15
 * @throws RangeError that names the argument out of range
 *
 * @example atMost(0.05, { a: 1, b: 59 }) // 0.9515
 */
export function atMost(x: number, shape: Shape): number {
  check(x, shape)

  return x === 0 || x === 1 ? x : Math.exp(logBeta(x, 1 - x, shape).lower)
}

/** Probability above x, with the promise of {@link atMost} for its own tail. */
export function moreThan(x: number, shape: Shape): number {
  check(x, shape)

  return x === 0 || x === 1 ? 1 - x : Math.exp(logBeta(x, 1 - x, shape).upper)
}

/**
 * The value that is not exceeded with the given probability. Relative error below 1e-11 (of the value, also where it is next to 0).
 *
 * @param probability from 0 to 1
 * @param shape a and b, from 1e-100 to 1e15
 * @throws RangeError that names the argument out of range
 *
 * @example quantile(0.95, { a: 5, b: 16 }) // 0.4010: 4 nonconforming of 20 may come from 40.1 %
 */
export function quantile(probability: number, shape: Shape): number {
  probabilityFrom0To1('probability', probability)
  check(0, shape)

  if (probability === 0 || probability === 1) return probability
  return fromLogit(betaLogit(probability, 1 - probability, shape))
}

/** The value that is exceeded with the given probability; for a small probability more exact than the quantile of its complement. */
export function upperQuantile(probability: number, shape: Shape): number {
  probabilityFrom0To1('probability', probability)
  check(0, shape)

  if (probability === 0 || probability === 1) return 1 - probability
  return fromLogit(betaLogit(1 - probability, probability, shape))
}

function check(x: number, { a, b }: Shape): void {
  probabilityFrom0To1('x', x)
  between('a', a, 1e-100, 1e15)
  between('b', b, 1e-100, 1e15)
}

function atEnd(near: number, far: number): number {
  if (near === 1) return far
  return near < 1 ? Number.POSITIVE_INFINITY : 0
}
