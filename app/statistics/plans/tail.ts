// A tail that is asked for many neighbouring sample sizes and counts: near steps are updates, far ones are computed anew.
import * as binomial from '../distributions/binomial.ts'
import * as hypergeometric from '../distributions/hypergeometric.ts'
import type { LotQuality } from './law.ts'

/** How a law moves from one sample size n and count c to the next. */
type Moves = {
  /** The tail and the density of c in n, computed anew. */
  tail(n: number, c: number): number
  density(n: number, c: number): number
  /** density(n + 1, c) / density(n, c) and density(n, c + 1) / density(n, c). */
  perUnit(n: number, c: number): number
  perCount(n: number, c: number): number
  /** Chance that one unit more is nonconforming when c of n were. */
  next(n: number, c: number): number
}

/** The tail at (n, c), and by how much one unit more than in the last question changes it. */
export type Tail = { at(n: number, c: number): number; change(): number }

type Side = -1 | 1

/** So many updates take as long as two densities and a sum. */
const nearby = 64

/** After so many updates the value is computed anew, before their rounding could matter. */
const longest = 4096

/** The tail P(X ≤ c) (`side` −1) or P(X > c) (`side` 1) of a sample of a lot, to be compared with a risk. */
export function lotTail({ lotSize: N, nonconforming: D }: LotQuality, side: Side, risk: number): Tail {
  const tail = side < 0 ? hypergeometric.atMost : hypergeometric.moreThan
  const moves: Moves = {
    tail: (n, c) => tail(c, { lotSize: N, nonconforming: D, sampleSize: n }),
    density: (n, c) => hypergeometric.density(c, { lotSize: N, nonconforming: D, sampleSize: n }),
    perUnit: (n, c) => ((n + 1) * (N - D - n + c)) / ((n + 1 - c) * (N - n)),
    perCount: (n, c) => ((D - c) * (n - c)) / ((c + 1) * (N - D - n + c + 1)),
    next: (n, c) => (D - c) / (N - n),
  }
  return tailOf(moves, side, risk)
}

/** The same of a sample of a process. */
export function processTail(fraction: number, side: Side, risk: number): Tail {
  const tail = side < 0 ? binomial.atMost : binomial.moreThan
  const odds = fraction / (1 - fraction)
  const moves: Moves = {
    tail: (n, c) => tail(c, { sampleSize: n, fraction }),
    density: (n, c) => binomial.density(c, { sampleSize: n, fraction }),
    perUnit: (n, c) => ((n + 1) / (n + 1 - c)) * (1 - fraction),
    perCount: (n, c) => ((n - c) / (c + 1)) * odds,
    next: () => fraction,
  }
  return tailOf(moves, side, risk)
}

/**
 * The tail P(X ≤ c) (`side` −1) or P(X > c) (`side` 1) of a law, for one asker.
 *
 * P(X ≤ c | n + 1) = P(X ≤ c | n) − density(c | n) · next, and P(X ≤ c + 1) = P(X ≤ c) + density(c + 1); P(X > c) the
 * other way round. Updates lose digits when the tail shrinks: the value is computed anew once it has shrunk to a
 * thousandth, where the density is too small to carry on, after many of them, and where it comes within 1e-9 of `risk`, the value that
 * it will be compared with, so that the comparison has all digits.
 */
function tailOf(moves: Moves, side: Side, risk: number): Tail {
  let n = 0
  let c = 0
  let density = 0
  let value = 0
  let least = Number.POSITIVE_INFINITY
  let walked = 0

  function anew(): void {
    walked = 0
    density = moves.density(n, c)
    value = moves.tail(n, c)
    least = Math.max(value / 1000, 1e-290)
  }

  function walk(toN: number, toC: number): void {
    for (; n < toN; n++) {
      value += side * density * moves.next(n, c)
      density *= moves.perUnit(n, c)
    }
    for (; n > toN; n--) {
      density /= moves.perUnit(n - 1, c)
      value -= side * density * moves.next(n - 1, c)
    }
    for (; c < toC; c++) {
      density *= moves.perCount(n, c)
      value -= side * density
    }
    for (; c > toC; c--) {
      value += side * density
      density /= moves.perCount(n, c - 1)
    }
  }

  return {
    at(toN, toC) {
      const distance = Math.abs(toN - n) + Math.abs(toC - c)
      walked += distance
      if (density > 1e-200 && distance <= nearby && walked <= longest) {
        walk(toN, toC)
        if (value > least && density > 1e-200 && Math.abs(value - risk) > 1e-9 * risk) return value
      }
      n = toN
      c = toC
      anew()
      return value
    },
    change: () => side * density * moves.next(n, c),
  }
}
