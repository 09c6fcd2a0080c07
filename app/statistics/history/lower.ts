// The chance that one process is better than another, each known as a beta distribution.
import { between } from '../check.ts'
import { type Complex, logGammaRise, quotient } from '../complex.ts'
import { fourfold, productError } from '../special.ts'

/** A beta distribution of a fraction nonconforming, as a posterior gives it. */
export type Belief = { readonly a: number; readonly b: number }

/**
 * P(first < second) for two independent beta variables: the chance that the first process has the lower fraction.
 *
 * Relative error below 1e-12 down to 1e-100 (1e-11 down to 1e-300), whatever the parameters, in about a hundred steps. A beta
 * variable is G ÷ (G + H) of two gamma variables, so the first is lower where W = ln G₁ + ln H₂ − ln H₁ − ln G₂ is below 0. The
 * moment-generating function of W is a product of four ratios of gamma functions, and P(W < 0) its contour integral,
 * −(1/2πi)∫ M(s)/s ds over a line Re s = c < 0, whose sum over equal steps converges exponentially.
 *
 * @param first, second a and b above 0, from 1e-300 to 1e15
 * @throws RangeError that names the argument out of range
 *
 * Source: J. Gil-Pelaez (1951), Biometrika 38, 481–482, on a line through the saddle point (R. Lugannani and S. Rice 1980); the
 * step from a to a + 1 is J. D. Cook (2005), Exact calculation of beta inequalities. From memory; checked against exact fractions.
 *
 * @example chanceLower({ a: 1, b: 9 }, { a: 2, b: 8 }) // 0.7647: 13/17
 */
export function chanceLower(first: Belief, second: Belief): number {
  for (const [name, { a, b }] of Object.entries({ first, second })) {
    between(`${name}.a`, a, 1e-300, 1e15)
    between(`${name}.b`, b, 1e-300, 1e15)
  }

  const chance = meanLogOdds(first) >= meanLogOdds(second) ? smaller(first, second) : 1 - smaller(second, first)
  return Math.min(1, Math.max(0, chance))
}

/** E ln(p/(1 − p)) = ψ(a) − ψ(b): on whose side the smaller chance lies. */
function meanLogOdds({ a, b }: Belief): number {
  return digamma(a) - digamma(b)
}

/** P(first < second) where the first tends to be the higher: its own small digits are kept, nothing is subtracted. */
function smaller(first: Belief, second: Belief): number {
  // A parameter near 0 is a pole next to the line. P(a₁) = P(a₁ + 1) + h/a₁ and P(b₂) = P(b₂ + 1) + h/b₂ move it away.
  if (first.a < 1) return stepOf(first, second) / first.a + smaller({ a: first.a + 1, b: first.b }, second)
  if (second.b < 1) return stepOf(first, second) / second.b + smaller(first, { a: second.a, b: second.b + 1 })
  const logOdds = logOddsRatio(first, second)
  const exponent = (s: Complex): Complex => {
    const minus = { re: -s.re, im: -s.im }
    const parts = [
      logGammaRise(first.a, s),
      logGammaRise(second.b, s),
      logGammaRise(first.b, minus),
      logGammaRise(second.a, minus),
    ]
    const start = { re: s.re * logOdds, im: s.im * logOdds }
    return parts.reduce((sum, part) => ({ re: sum.re + part.re, im: sum.im + part.im }), start)
  }
  return contour(exponent, Math.min(first.a, second.b))
}

/** ln(a₁ b₂ ÷ (b₁ a₂)), with the digits of the difference where both processes are nearly equal. */
function logOddsRatio(first: Belief, second: Belief): number {
  const along = first.a * second.b
  const across = first.b * second.a
  const ratio = along / across
  if (!(ratio > 0.5 && ratio < 2))
    return Math.log(first.a) - Math.log(first.b) + (Math.log(second.b) - Math.log(second.a))
  const lost = productError(first.a, second.b, along) - productError(first.b, second.a, across)
  return Math.log1p((along - across + lost) / across)
}

/** −(1/2πi)∫ exp(exponent(s))/s ds upwards along Re s = c, through the saddle point of the integrand between −width and 0. */
function contour(exponent: (s: Complex) => Complex, width: number): number {
  const height = (c: number) => exponent({ re: c, im: 0 }).re - Math.log(-c)
  const c = lowest(height, width)
  const peak = height(c)
  if (peak < -800) return 0 // below the smallest number
  // Half a standard deviation of the Gaussian that the integrand is near the saddle, from its second difference there.
  const near = Math.min(-c, width + c) / 8
  const bend = (height(c - near) + height(c + near) - 2 * peak) / (near * near)
  const integrand = (im: number) => {
    const { re, im: turn } = exponent({ re: c, im })
    const size = Math.exp(re - Math.log(-c) - peak)
    return quotient({ re: -c * size * Math.cos(turn), im: -c * size * Math.sin(turn) }, { re: -c, im: -im })
  }
  let step = 0.5 / Math.sqrt(bend)
  let total = sumOver(integrand, step, step) + 0.5
  for (let halvings = 0; halvings < 12; halvings++) {
    // The points between: their sum against that of the others shows how exact the others already are.
    const between = sumOver(integrand, step / 2, step)
    const error = Math.abs(between - total)
    total += between
    step /= 2
    if (error <= 1e-9 * total) break
  }
  return Math.exp(peak) * total * (step / Math.PI)
}

/** Real parts of the integrand at from, from + step, …, until they are nothing against the value 1 at 0. */
function sumOver(integrand: (im: number) => Complex, from: number, step: number): number {
  let total = 0
  for (let im = from; ; im += step) {
    const { re, im: turned } = integrand(im)
    total += re
    if (!(Math.abs(re) + Math.abs(turned) >= 1e-18)) return total
  }
}

/** Where a convex function that rises to infinity at −width and at 0 is lowest, to a few digits: halving by thirds in ln(−c). */
function lowest(height: (c: number) => number, width: number): number {
  let low = Math.log(width) - 40
  let high = Math.log(width) - 1e-3
  for (let round = 0; round < 26; round++) {
    const left = low + (high - low) / 3
    const right = high - (high - low) / 3
    if (height(-Math.exp(left)) < height(-Math.exp(right))) high = right
    else low = left
  }
  return -Math.exp((low + high) / 2)
}

/** h = B(a₁ + a₂, b₁ + b₂) ÷ (B(a₁, b₁) B(a₂, b₂)), by the fourfold table of the four parameters. */
function stepOf(first: Belief, second: Belief): number {
  const rows = first.a + second.a
  const others = first.b + second.b
  const table = fourfold({ upperLeft: first.a, upperRight: second.a, lowerLeft: first.b, lowerRight: second.b })
  const own = (first.a * first.b) / (first.a + first.b)
  const its = (second.a * second.b) / (second.a + second.b)
  return ((table * (rows + others)) / rows / others) * own * its
}

/** ψ(x), to about eight digits: it only chooses a side. */
function digamma(x: number): number {
  let shift = 0
  let from = x
  for (; from < 8; from++) shift -= 1 / from
  const square = 1 / (from * from)
  return shift + Math.log(from) - 0.5 / from - square * (1 / 12 - square * (1 / 120 - square / 252))
}
