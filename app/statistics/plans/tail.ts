// A tail that is asked for many neighbouring sample sizes and counts: near steps are updates, far ones are computed anew.
import * as binomial from '../distributions/binomial.ts'
import * as hypergeometric from '../distributions/hypergeometric.ts'
import type { LotQuality } from './law.ts'

type Sampled =
  | { readonly from: 'lot'; readonly N: number; readonly D: number }
  | { readonly from: 'process'; readonly p: number }

/** P(X ≤ c) (`side` −1) or P(X > c) (`side` 1) in n units, at the n and c of the last question; one for each asker. */
export type Tail = {
  readonly law: Sampled
  readonly side: -1 | 1
  readonly risk: number
  n: number
  c: number
  density: number
  value: number
  /** Below it the value has lost digits. */
  least: number
  walked: number
}

/** So many updates take as long as a density and a sum. */
const nearby = 64

/** After so many updates the value is computed anew, before their rounding could matter. */
const longest = 4096

const unasked = { n: 0, c: 0, density: 0, value: 0, least: Number.POSITIVE_INFINITY, walked: 0 }

/** The tail of a sample of a lot, to be compared with a risk. */
export function lotTail({ lotSize, nonconforming }: LotQuality, side: -1 | 1, risk: number): Tail {
  return { law: { from: 'lot', N: lotSize, D: nonconforming }, side, risk, ...unasked }
}

/** The same of a sample of a process. */
export function processTail(fraction: number, side: -1 | 1, risk: number): Tail {
  return { law: { from: 'process', p: fraction }, side, risk, ...unasked }
}

/**
 * The tail in n units at count c.
 *
 * P(X ≤ c | n + 1) = P(X ≤ c | n) − density(c | n) · next, and P(X ≤ c + 1) = P(X ≤ c) + density(c + 1); P(X > c) the
 * other way round. Updates lose digits when the tail shrinks. So the value is computed anew once it has shrunk to a
 * thousandth, after many updates, where the density is too small to carry on, and where it comes within 1e-9 of the
 * risk that it will be compared with, so that the comparison has all digits.
 */
export function tailAt(tail: Tail, n: number, c: number): number {
  const distance = Math.abs(n - tail.n) + Math.abs(c - tail.c)
  tail.walked += distance
  if (tail.density > 1e-200 && distance <= nearby && tail.walked <= longest) {
    walk(tail, n, c)
    const certain = tail.value > tail.least && tail.density > 1e-200
    if (certain && Math.abs(tail.value - tail.risk) > 1e-9 * tail.risk) return tail.value
  }
  tail.n = n
  tail.c = c
  computeAnew(tail)
  return tail.value
}

/** By how much one unit more than in the last question changes the tail. */
export function changeOf({ law, side, density, n, c }: Tail): number {
  return side * density * next(law, n, c)
}

function walk(tail: Tail, toN: number, toC: number): void {
  const { law, side } = tail
  let { n, c, density, value } = tail
  for (; n < toN; n++) {
    value += side * density * next(law, n, c)
    density *= perUnit(law, n, c)
  }
  for (; n > toN; n--) {
    density /= perUnit(law, n - 1, c)
    value -= side * density * next(law, n - 1, c)
  }
  for (; c < toC; c++) {
    density *= perCount(law, n, c)
    value -= side * density
  }
  for (; c > toC; c--) {
    value += side * density
    density /= perCount(law, n, c - 1)
  }
  tail.n = n
  tail.c = c
  tail.density = density
  tail.value = value
}

/** The tail summed from its greatest term, next to c, where that is the side on which terms fall; else by the distribution. */
function computeAnew(tail: Tail): void {
  const { law, side, n, c } = tail
  tail.walked = 0
  tail.density = densityOf(law, n, c)
  const mean = law.from === 'lot' ? n * (law.D / law.N) : n * law.p
  if (!(tail.density > 1e-290) || (side < 0 ? c >= mean : c <= mean)) tail.value = tailOf(law, side, n, c)
  else if (side < 0) {
    let term = tail.density
    tail.value = term
    for (let d = c; d > 0 && term > tail.value * 1e-18; d--) tail.value += term /= perCount(law, n, d - 1)
  } else {
    let term = tail.density * perCount(law, n, c)
    tail.value = term
    for (let d = c + 1; term > tail.value * 1e-18; d++) tail.value += term *= perCount(law, n, d)
  }
  tail.least = Math.max(tail.value / 1000, 1e-290)
}

/** Chance that one unit more is nonconforming when c of n were. */
function next(law: Sampled, n: number, c: number): number {
  return law.from === 'lot' ? (law.D - c) / (law.N - n) : law.p
}

/** density(c | n + 1) / density(c | n). */
function perUnit(law: Sampled, n: number, c: number): number {
  if (law.from === 'process') return ((n + 1) / (n + 1 - c)) * (1 - law.p)
  return ((n + 1) * (law.N - law.D - n + c)) / ((n + 1 - c) * (law.N - n))
}

/** density(c + 1 | n) / density(c | n). */
function perCount(law: Sampled, n: number, c: number): number {
  if (law.from === 'process') return ((n - c) / (c + 1)) * (law.p / (1 - law.p))
  return ((law.D - c) * (n - c)) / ((c + 1) * (law.N - law.D - n + c + 1))
}

function densityOf(law: Sampled, n: number, c: number): number {
  if (law.from === 'process') return binomial.density(c, { sampleSize: n, fraction: law.p })
  return hypergeometric.density(c, { lotSize: law.N, nonconforming: law.D, sampleSize: n })
}

function tailOf(law: Sampled, side: -1 | 1, n: number, c: number): number {
  if (law.from === 'process') {
    const trials = { sampleSize: n, fraction: law.p }
    return side < 0 ? binomial.atMost(c, trials) : binomial.moreThan(c, trials)
  }
  const draw = { lotSize: law.N, nonconforming: law.D, sampleSize: n }
  return side < 0 ? hypergeometric.atMost(c, draw) : hypergeometric.moreThan(c, draw)
}
