// The standard normal distribution.
import { finite, openProbability } from '../check.ts'
import { productError } from '../special.ts'

const rootOfTwoPi = Math.sqrt(2 * Math.PI)

/** Density at z, any finite number. Relative error below 1e-14 down to 1e-300. */
export function density(z: number): number {
  finite('z', z)

  return bell(z) / rootOfTwoPi
}

/**
 * Probability of a value of z or less. Relative error below 1e-14 down to 1e-300 (z = −37).
 *
 * @param z any finite number, in standard deviations from the mean
 * @throws RangeError when z is not finite
 *
 * Source: tail in the Chebyshev form of Shepherd & Laframboise (1981), see {@link millsRatio}.
 *
 * @example atMost(-1.96) // 0.024998
 */
export function atMost(z: number): number {
  finite('z', z)

  return z < 0 ? tail(-z) : 1 - tail(z)
}

/** Probability of a value above z, exact in its own tail. */
export function moreThan(z: number): number {
  return atMost(-z)
}

/** Natural logarithm of {@link atMost}, which goes on where the probability itself is too small for a number. */
export function logAtMost(z: number): number {
  finite('z', z)

  return z < -1 ? Math.log(millsRatio(-z) / rootOfTwoPi) - (z * z) / 2 : Math.log1p(-tail(z))
}

/**
 * The value that is not exceeded with the given probability. Relative error below 1e-13, next to 0 and in both tails.
 *
 * @param probability above 0 and below 1
 * @returns standard deviations from the mean
 * @throws RangeError when the probability is out of range
 *
 * Source: starting value 26.2.23 of Abramowitz & Stegun (1964), then Halley's steps on the tail itself.
 *
 * @example quantile(0.975) // 1.959964
 */
export function quantile(probability: number): number {
  openProbability('probability', probability)

  if (probability === 0.5) return 0
  if (Math.abs(probability - 0.5) < 0.2) return centralQuantile(probability - 0.5)
  return probability < 0.5 ? -upperQuantile(probability) : upperQuantile(1 - probability)
}

/**
 * Mills' ratio: probability above z divided by the density at z, for z ≥ 0. Relative error below 1e-15.
 *
 * Source: M. M. Shepherd & J. G. Laframboise (1981), Mathematics of Computation 36, 249–253: (1 + 2x)·exp(x²)·erfc x is a short
 * Chebyshev series in (x − 3.75) ÷ (x + 3.75) over all x ≥ 0 (form from memory; the coefficients were computed anew at 50 digits).
 */
export function millsRatio(z: number): number {
  const x = z * Math.SQRT1_2
  const t = (2 * (x - 3.75)) / (x + 3.75)
  let next = 0
  let afterNext = 0
  for (let i = coefficients.length - 1; i > 0; i--) {
    const value = t * next - afterNext + (coefficients[i] ?? 0)
    afterNext = next
    next = value
  }
  const series = (t / 2) * next - afterNext + (coefficients[0] ?? 0)
  return (series / (1 + 2 * x)) * Math.sqrt(Math.PI / 2)
}

/** Probability above z; below 0 through the other side. */
function tail(z: number): number {
  return z < 0 ? 1 - tail(-z) : (millsRatio(z) * bell(z)) / rootOfTwoPi
}

/** exp(−z²/2) with the digits that rounding takes from z² put back: at z = 37 they are the thirteenth of the result. */
function bell(z: number): number {
  const square = z * z
  return square < 2000 ? Math.exp(-square / 2) * (1 - productError(z, z, square) / 2) : 0
}

/** Solves P(Z > z) = probability ≤ 0.3 by two of Halley's steps, with the density taken into the exponent so that nothing underflows. */
function upperQuantile(probability: number): number {
  const logarithm = Math.log(probability)
  const t = Math.sqrt(-2 * logarithm)
  let z = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)))
  for (let step = 0; step < 3; step++) {
    const beyond = millsRatio(z) - rootOfTwoPi * Math.exp(logarithm + (z * z) / 2)
    z += beyond / (1 - (z * beyond) / 2)
  }
  return z
}

/** Solves P(0 < Z ≤ z) = `share`, |share| < 0.2, where the tail would lose the digits of a small z. */
function centralQuantile(share: number): number {
  let z = share * rootOfTwoPi
  for (let step = 0; step < 5; step++) {
    const short = (share * rootOfTwoPi) / bell(z) - centralRatio(z)
    z += short / (1 - (z * short) / 2)
  }
  return z
}

/** P(0 < Z ≤ z) divided by the density at z: z + z³/3 + z⁵/15 + …, a series without subtractions. */
function centralRatio(z: number): number {
  let term = z
  let total = z
  for (let odd = 3; ; odd += 2) {
    term *= (z * z) / odd
    const next = total + term
    if (!(Math.abs(next - total) > 0)) return next
    total = next
  }
}

const coefficients = [
  1.1775789345674017, -0.004590054580646478, -0.08424913336651792, 0.05920993999819189, -0.026658668435305753,
  0.009074997670705265, -0.002413163540417608, 0.0004907758365258086, -6.916973302501207e-5, 4.13902798607301e-6,
  7.74038306619849e-7, -2.1886401049234397e-7, 1.076499946567091e-8, 4.521959811218287e-9, -7.754400208831351e-10,
  -6.318088340886684e-11, 2.86879501093067e-11, 1.9455868545777347e-13, -9.65469674843344e-13, 3.25254814814874e-14,
  3.3478119482868056e-14, -1.864562880419313e-15, -1.2507950530688648e-15, 7.418235256624044e-17, 5.068148904796111e-17,
]
