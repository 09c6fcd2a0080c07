// Chances of many neighbouring counts under a belief about the process: each follows from its neighbour in one step.

import type { BetaPrior } from '../bounds/posterior.ts'
import { density } from '../distributions/beta-binomial.ts'

/** A count after so many units. */
export type Place = { readonly tested: number; readonly found: number }

/** The counts `from` to `to` after the same number of units. */
export type ChanceRow = { readonly tested: number; readonly from: number; readonly to: number }

/** A chance is kept as a number between these and how often it was made larger, as it may pass below all numbers and come back. */
const least = 1e-150
const larger = 1e150

/**
 * The chance to find just so many, place after place, written into `chances`. It is carried from (0, 0), where it is 1, unit by unit
 * and count by count: a product of positive quotients, so a path of ten thousand units loses four digits at most. Chances
 * below 1e-150 are 0. Units are subtracted among themselves first: beside them an `a` or `b` of 1e-90 would be lost.
 *
 * @param places units never falling
 */
export function chancesAlong(places: readonly Place[], { a, b }: BetaPrior, chances: Float64Array): void {
  let n = 0
  let d = 0
  let value = 1
  let shrunk = 0
  for (let i = 0; i < places.length; i++) {
    const { tested, found } = places[i]!
    while (n < tested || d !== found) {
      if (n < tested && (d >= found || d === n)) {
        value *= ((n + 1) * (b + (n - d))) / ((n + 1 - d) * (a + b + n))
        n++
      } else if (d < found) {
        value *= ((n - d) * (a + d)) / ((d + 1) * (b + (n - d - 1)))
        d++
      } else {
        value *= (d * (b + (n - d))) / ((n - d + 1) * (a + (d - 1)))
        d--
      }
      if (value < least) {
        value *= larger
        shrunk++
      } else if (shrunk > 0 && value > 1) {
        value *= least
        shrunk--
      }
    }
    chances[i] = shrunk === 0 ? value : 0
  }
}

/** The chances of a row of counts, outwards from the greatest of them. */
export function chancesIn({ tested: n, from, to }: ChanceRow, { a, b }: BetaPrior): Float64Array {
  const chances = new Float64Array(Math.max(0, to - from + 1))
  if (chances.length === 0) return chances
  const mixed = { sampleSize: n, a, b }
  const mode = Math.floor(((n + 1) * (a - 1)) / (a + b - 2))
  const middle = Number.isFinite(mode) ? Math.min(to, Math.max(from, mode)) : from
  const start = [from, middle, to].reduce((best, next) => (density(next, mixed) > density(best, mixed) ? next : best))
  let value = density(start, mixed)
  for (let d = start; d <= to; d++) {
    chances[d - from] = value
    value *= ((n - d) * (a + d)) / ((d + 1) * (b + (n - d - 1)))
  }
  value = chances[start - from]!
  for (let d = start; d > from; d--) {
    value *= (d * (b + (n - d))) / ((n - d + 1) * (a + (d - 1)))
    chances[d - 1 - from] = value
  }
  return chances
}
