// The number of nonconforming units in a sample drawn without replacement from a lot.
import { count, exceeds, integer, probability as probabilityFrom0To1 } from '../check.ts'
import { leastInteger } from '../search.ts'
import { fourfold } from '../special.ts'

/** Lot of N units, D of them nonconforming, from which n are drawn without replacement: whole numbers, 0 ≤ D ≤ N, 0 ≤ n ≤ N. */
export type Draw = { lotSize: number; nonconforming: number; sampleSize: number }

/**
 * Probability that the sample holds exactly `found` nonconforming units; 0 outside what is possible.
 *
 * Relative error below 1e-12 for lots up to 10,000,000 and values down to 1e-300, in constant time.
 *
 * @param found any whole number of units
 * @throws RangeError that names the argument out of range
 *
 * Source: the fourfold table in Loader's saddle-point form, see {@link fourfold}.
 *
 * @example density(0, { lotSize: 100, nonconforming: 1, sampleSize: 90 }) // 0.1
 */
export function density(found: number, draw: Draw): number {
  check(found, draw)

  return densityOf(found, draw)
}

/**
 * Probability that the sample holds `found` nonconforming units or fewer.
 *
 * Relative error below 1e-12 (1e-11 above 1,000,000 units) down to 1e-300: terms are summed from the greatest outwards until they
 * no longer count, on the side where the sum is small. Takes some ten standard deviations of steps at most.
 *
 * @param found any whole number of units
 * @throws RangeError that names the argument out of range
 *
 * @example atMost(0, { lotSize: 480, nonconforming: 27, sampleSize: 48 }) // 0.0534: a clean tenth may well hide 27
 */
export function atMost(found: number, draw: Draw): number {
  check(found, draw)

  if (found < least(draw)) return 0
  if (found >= most(draw)) return 1
  return found < mean(draw) ? sumDown(found, draw) : 1 - sumUp(found + 1, draw)
}

/** Probability that the sample holds more than `found` nonconforming units, with the promise of {@link atMost} for its own tail. */
export function moreThan(found: number, draw: Draw): number {
  check(found, draw)

  if (found < least(draw)) return 1
  if (found >= most(draw)) return 0
  return found + 1 < mean(draw) ? 1 - sumDown(found, draw) : sumUp(found + 1, draw)
}

/**
 * Smallest number that the sample exceeds with probability 1 − `probability` at most; equality up to 1e-12 counts as met.
 *
 * @param probability from 0 to 1
 * @returns whole units
 * @throws RangeError that names the argument out of range
 */
export function quantile(probability: number, draw: Draw): number {
  probabilityFrom0To1('probability', probability)
  check(0, draw)

  if (probability === 1) return most(draw)
  return leastInteger(least(draw), most(draw), (found) => !exceeds(probability, atMost(found, draw)))
}

function check(found: number, { lotSize, nonconforming, sampleSize }: Draw): void {
  integer('found', found)
  count('lotSize', lotSize)
  count('nonconforming', nonconforming, 0, lotSize)
  count('sampleSize', sampleSize, 0, lotSize)
}

function least({ lotSize, nonconforming, sampleSize }: Draw): number {
  return Math.max(0, sampleSize + nonconforming - lotSize)
}

function most({ nonconforming, sampleSize }: Draw): number {
  return Math.min(sampleSize, nonconforming)
}

function mean({ lotSize, nonconforming, sampleSize }: Draw): number {
  return sampleSize * (nonconforming / lotSize)
}

function densityOf(d: number, draw: Draw): number {
  const { lotSize: N, nonconforming: D, sampleSize: n } = draw
  if (d < least(draw) || d > most(draw)) return 0
  if (least(draw) === most(draw)) return 1
  return fourfold({ upperLeft: d, upperRight: n - d, lowerLeft: D - d, lowerRight: N - D - n + d })
}

/** Sum of the densities from `found` downwards; below the mean each step shrinks faster than the one before. */
function sumDown(found: number, draw: Draw): number {
  const { lotSize: N, nonconforming: D, sampleSize: n } = draw
  const end = least(draw)
  let term = densityOf(found, draw)
  let total = term
  for (let d = found; d > end; d--) {
    term *= (d * (N - D - n + d)) / ((D - d + 1) * (n - d + 1))
    total += term
    if (term <= total * 1e-18) break
  }
  return total
}

/** Sum of the densities from `found` upwards; above the mean each step shrinks faster than the one before. */
function sumUp(found: number, draw: Draw): number {
  const { lotSize: N, nonconforming: D, sampleSize: n } = draw
  const end = most(draw)
  let term = densityOf(found, draw)
  let total = term
  for (let d = found; d < end; d++) {
    term *= ((D - d) * (n - d)) / ((d + 1) * (N - D - n + d + 1))
    total += term
    if (term <= total * 1e-18) break
  }
  return total
}
