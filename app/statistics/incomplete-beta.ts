// The incomplete beta function and its inverse, exact in both tails: beta, binomial bounds and Student's t rest on it.
import { deviance, productError, rootFactor, stirlingError, sumError } from './special.ts'

/** Parameters of a beta distribution, both above 0. */
export type Shape = { a: number; b: number }

/**
 * Natural logarithms of P(X ≤ x), of P(X > x) and of x·(1 − x) times the density at x; and how fast the first grows with the logit
 * of x, which is the last divided by the first, but not by the difference of two logarithms that may both be enormous.
 */
export type LogBeta = { lower: number; upper: number; power: number; growth: number }

/**
 * Both tails of the beta distribution at x, each exact where it is the small one.
 *
 * @param x 0 < x < 1
 * @param y 1 − x; the smaller of both is taken as exact
 *
 * Source: continued fraction 9 of A. R. DiDonato & A. H. Morris (1992), ACM TOMS 18, 360–373 (from memory), before it the power
 * in Loader's saddle-point form. Where one parameter is next to 0 both tails are next to 0 and 1, see {@link logNearOne}.
 */
export function logBeta(x: number, y: number, { a, b }: Shape): LogBeta {
  const excess = excessOf(x, y, a, b)
  const power = logPower(x, y, a, b, excess)
  if (b < 0.1 && y * Math.max(a, 1) < 0.3) return fromUpper(logNearOne(y, b, a), power)
  if (a < 0.1 && x * Math.max(b, 1) < 0.3) {
    const lower = logNearOne(x, a, b)
    return { lower, upper: Math.log(-Math.expm1(lower)), power, growth: Math.exp(power - lower) }
  }
  if (excess < 0) return fromUpper(power - Math.log(fraction(y, x, b, a, -excess)), power)
  const growth = fraction(x, y, a, b, excess)
  const lower = power - Math.log(growth)
  return { lower, upper: Math.log1p(-Math.exp(lower)), power, growth }
}

/**
 * The logit ln(x ÷ (1 − x)) of the value x that a beta variable does not exceed with probability `lower`; upper = 1 − lower.
 * Both are asked for, because near 1 only the other one has digits.
 *
 * Newton's steps on the logarithm of the smaller tail: in the logit that logarithm is concave, so they cannot leave the root.
 */
export function betaLogit(lower: number, upper: number, { a, b }: Shape): number {
  return lower <= upper ? lowerLogit(lower, { a, b }) : -lowerLogit(upper, { a: b, b: a })
}

/** The number whose logit is given; exact for both ends. */
export function fromLogit(logit: number): number {
  return logit < 0 ? Math.exp(logit) / (1 + Math.exp(logit)) : 1 / (1 + Math.exp(-logit))
}

/** Beyond this logit, up or down, the smaller of x and 1 − x is next to the least number there is. */
const farthest = 690

function lowerLogit(probability: number, shape: Shape): number {
  const target = Math.log(probability)
  const least = logAtLogit(-farthest, shape).lower
  if (target < least) return -farthest + (target - least) / shape.a // P(X ≤ x) is a multiple of x^a there
  let logit = Math.min(farthest, Math.max(-farthest, Math.log(shape.a / shape.b)))
  for (let step = 0; step < 100; step++) {
    const { lower, growth } = logAtLogit(logit, shape)
    const next = Math.min(farthest, Math.max(-farthest, logit + (target - lower) / growth))
    if (Math.abs(next - logit) <= 1e-15 * Math.max(1, Math.abs(logit))) return next
    logit = next
  }
  return logit
}

function logAtLogit(logit: number, shape: Shape): LogBeta {
  return logBeta(fromLogit(logit), fromLogit(-logit), shape)
}

function fromUpper(upper: number, power: number): LogBeta {
  const lower = upper < -1 ? Math.log1p(-Math.exp(upper)) : Math.log(-Math.expm1(upper))
  return { lower, upper, power, growth: Math.exp(power - lower) }
}

/** a − (a + b)·x = a·y − b·x, with the digits that rounding drops; the sign says on which side of the mean x lies. */
function excessOf(x: number, y: number, a: number, b: number): number {
  const sum = a + b
  const sumLow = sumError(a, b, sum)
  if (x <= y) {
    const mean = sum * x
    return a - mean - (productError(sum, x, mean) + sumLow * x)
  }
  const mean = sum * y
  return mean - b + (productError(sum, y, mean) + sumLow * y)
}

/** ln(x^a · y^b ÷ B(a, b)). */
function logPower(x: number, y: number, a: number, b: number, excess: number): number {
  const sum = a + b
  const errors = stirlingError(sum) - stirlingError(a) - stirlingError(b)
  const roots = Math.log(rootFactor(sum) / rootFactor(a) / rootFactor(b)) / 2 + Math.log(a * (b / sum))
  return errors + roots - deviance(a, sum * x, excess) - deviance(b, sum * y, -excess)
}

/** x^a · y^b ÷ B(a, b) divided by P(X ≤ x), for x up to the mean; by the modified method of Lentz. */
function fraction(x: number, y: number, a: number, b: number, excess: number): number {
  let value = (a / (a + 1)) * (excess + 1)
  let ahead = value
  let behind = 0
  for (let n = 1; ; n++) {
    const odd = a + 2 * n - 1
    const numerator = ((a + n - 1) / odd) * ((a + b + n - 1) / odd) * n * (b - n) * x * x
    const denominator = n + (n * (b - n) * x) / odd + ((a + n) / (odd + 2)) * (excess + 1 + n * (1 + y))
    behind = 1 / (denominator + numerator * behind)
    ahead = denominator + numerator / ahead
    const step = ahead * behind
    value *= step
    if (!(Math.abs(step - 1) >= 3e-16)) return value
  }
}

/**
 * ln P(X ≤ x) where a is next to 0 and x·b small, so that nearly all of the probability lies at 0: each part is of the size of a,
 * and 1 − P keeps its digits. The power series of the incomplete beta function, behind x^a ÷ (a·B(a, b)).
 */
function logNearOne(x: number, a: number, b: number): number {
  let term = 1
  let series = 0
  for (let n = 1; ; n++) {
    term *= ((n - b) / n) * x
    const next = series + term / (a + n)
    if (!(Math.abs(next - series) > 0)) break
    series = next
  }
  return a * Math.log(x) + logRising(b, a) - logRising(1, a) + Math.log1p(a * series)
}

/** ln(Γ(x + h) ÷ Γ(x)) for 0 < h < 1, exact relative to h: Stirling's series with each difference taken by itself. */
function logRising(x: number, h: number): number {
  let total = 0
  let from = x
  for (; from < 10; from++) total -= Math.log1p(h / from)
  const growth = Math.log1p(h / from)
  total += (from - 0.5) * growth + h * Math.log(from + h) - h
  let power = 1 / from
  for (const [i, coefficient] of stirlingSeries.entries()) {
    total += coefficient * power * Math.expm1(-(2 * i + 1) * growth)
    power /= from * from
  }
  return total
}

/** Coefficients of 1/x, 1/x³, … in Stirling’s series of ln Γ; 16 digits from x = 10 on. */
export const stirlingSeries = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156]
