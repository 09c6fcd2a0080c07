// The little of complex arithmetic that a contour integral needs, and the ratio of gamma functions along it.
import { stirlingSeries } from './incomplete-beta.ts'

export type Complex = { readonly re: number; readonly im: number }

/** ln(1 + w), exact where w is small and finite where its square is not. */
function log1p({ re, im }: Complex): Complex {
  const size =
    Math.abs(re) + Math.abs(im) < 1 ? Math.log1p(re * (2 + re) + im * im) / 2 : Math.log(Math.hypot(1 + re, im))
  return { re: size, im: Math.atan2(im, 1 + re) }
}

function product(p: Complex, q: Complex): Complex {
  return { re: p.re * q.re - p.im * q.im, im: p.re * q.im + p.im * q.re }
}

export function quotient(p: Complex, q: Complex): Complex {
  const size = q.re * q.re + q.im * q.im
  return { re: (p.re * q.re + p.im * q.im) / size, im: (p.im * q.re - p.re * q.im) / size }
}

/**
 * ln Γ(a + s) − ln Γ(a) − s·ln a, exact to its last digits also where a is so large that both logarithms would lose all of theirs.
 *
 * @param a above 0
 * @param s complex, its real part above −a
 *
 * Source: Stirling's series for complex arguments; small a are stepped up by the recurrence of Γ.
 */
export function logGammaRise(a: number, s: Complex): Complex {
  let re = 0
  let im = 0
  let from = a
  for (; Math.min(from, from + s.re) < 10; from++) {
    const step = log1p({ re: s.re / from, im: s.im / from })
    re -= step.re
    im -= step.im
  }
  const growth = Math.log(from / a)
  const w = { re: s.re / from, im: s.im / from }
  const log = log1p(w)
  const bulk = entropy(w, log)
  const tail = stirlingTail({ re: from + s.re, im: s.im })
  return {
    re: re + s.re * growth + from * bulk.re - log.re / 2 + tail.re - stirlingTail({ re: from, im: 0 }).re,
    im: im + s.im * growth + from * bulk.im - log.im / 2 + tail.im,
  }
}

/** (1 + w)·ln(1 + w) − w, by its series w²/2 − w³/6 + w⁴/12 − … where w is small. */
function entropy(w: Complex, log: Complex): Complex {
  if (Math.abs(w.re) + Math.abs(w.im) > 0.25) {
    const whole = product({ re: 1 + w.re, im: w.im }, log)
    return { re: whole.re - w.re, im: whole.im - w.im }
  }
  const square = product(w, w)
  let power = square
  let total: Complex = { re: square.re / 2, im: square.im / 2 }
  for (let k = 3; k < 60; k++) {
    power = product(power, { re: -w.re, im: -w.im })
    const next = { re: total.re + power.re / (k * (k - 1)), im: total.im + power.im / (k * (k - 1)) }
    if (next.re === total.re && next.im === total.im) break
    total = next
  }
  return total
}

/** Stirling's series 1/(12z) − 1/(360z³) + … for |z| of at least 10. */
function stirlingTail(z: Complex): Complex {
  const inverse = quotient({ re: 1, im: 0 }, z)
  const square = product(inverse, inverse)
  let total: Complex = { re: 0, im: 0 }
  for (const coefficient of stirlingSeries.toReversed())
    total = { re: product(total, square).re + coefficient, im: product(total, square).im }
  return product(total, inverse)
}
