// The number of nonconforming units in a sample when the process fraction itself differs from lot to lot by a beta distribution.
import { between, count, exceeds, integer, probability as probabilityFrom0To1 } from '../check.ts'
import { leastInteger } from '../search.ts'
import { fourfold } from '../special.ts'
import * as beta from './beta.ts'

/** n units, whole, up to 10,000,000, whose common fraction is drawn from a beta distribution with a and b, both from 1e-100 to 1e15. */
export type MixedTrials = { sampleSize: number; a: number; b: number }

/** A tail may take a step for each unit: a few hundredths of a second at this size, and without end at 1e15. */
const mostTrials = 10_000_000

/**
 * Probability that the sample holds exactly `found` nonconforming units; 0 outside what is possible.
 *
 * Relative error below 1e-12 for samples up to 10,000,000 and values down to 1e-300, in constant time.
 *
 * @param found any whole number of units
 * @throws RangeError that names the argument out of range
 *
 * Source: it is C(n, d)·B(d + a, n − d + b) ÷ B(a, b), the factorials of the fourfold table (d, n − d; a, b) up to three quotients.
 *
 * @example density(0, { sampleSize: 48, a: 1, b: 9 }) // 0.157895: 9 ÷ 57
 */
export function density(found: number, trials: MixedTrials): number {
  check(found, trials)

  return densityOf(found, trials)
}

/**
 * Probability that the sample holds `found` nonconforming units or fewer.
 *
 * Relative error below 1e-11 down to 1e-300: terms are summed outwards on the side where the sum is small, which in this skew
 * distribution need not be the side of the mean. The tails are long where
 * a or b is small, so up to n steps are taken.
 *
 * @param found any whole number of units
 * @throws RangeError that names the argument out of range
 *
 * @example atMost(1, { sampleSize: 48, a: 1, b: 9 }) // 0.2932
 */
export function atMost(found: number, trials: MixedTrials): number {
  check(found, trials)

  if (found < 0) return 0
  if (found >= trials.sampleSize) return 1
  const complement = found < mean(trials) ? 0 : 1 - sumUp(found + 1, trials)
  return complement > 0.1 ? complement : sumDown(found, trials)
}

/** Probability that the sample holds more than `found` nonconforming units, with the promise of {@link atMost} for its own tail. */
export function moreThan(found: number, trials: MixedTrials): number {
  check(found, trials)

  if (found < 0) return 1
  if (found >= trials.sampleSize) return 0
  const complement = found + 1 < mean(trials) ? 1 - sumDown(found, trials) : 0
  return complement > 0.1 ? complement : sumUp(found + 1, trials)
}

/**
 * Smallest number that the sample exceeds with probability 1 − `probability` at most; equality up to 1e-12 counts as met.
 *
 * @param probability from 0 to 1
 * @returns whole units
 * @throws RangeError that names the argument out of range
 */
export function quantile(probability: number, trials: MixedTrials): number {
  probabilityFrom0To1('probability', probability)
  check(0, trials)

  const { sampleSize } = trials
  if (probability === 0 || probability === 1) return probability * sampleSize
  const reached = (found: number) => !exceeds(probability, atMost(found, trials))
  const guess = Math.floor(sampleSize * beta.quantile(probability, trials))
  let width = 1
  while (reached(guess - width) || !reached(guess + width)) width *= 4
  return leastInteger(Math.max(0, guess - width), Math.min(sampleSize, guess + width), reached)
}

function check(found: number, { sampleSize, a, b }: MixedTrials): void {
  integer('found', found)
  count('sampleSize', sampleSize, 0, mostTrials)
  between('a', a, 1e-100, 1e15)
  between('b', b, 1e-100, 1e15)
}

function mean({ sampleSize, a, b }: MixedTrials): number {
  return sampleSize * (a / (a + b))
}

function densityOf(d: number, { sampleSize: n, a, b }: MixedTrials): number {
  if (d < 0 || d > n) return 0
  const table = fourfold({ upperLeft: d, upperRight: n - d, lowerLeft: a, lowerRight: b })
  return table * (a / (d + a)) * (b / (n - d + b)) * ((n + a + b) / (a + b))
}

/** Sum of the densities from `found` downwards; with a below 1 they may rise again towards 0, so only then every one is taken. */
function sumDown(found: number, trials: MixedTrials): number {
  const { sampleSize: n, a, b } = trials
  let term = densityOf(found, trials)
  let total = term
  for (let d = found; d > 0; d--) {
    term *= (d / (n - d + 1)) * ((n - d + b) / (d - 1 + a))
    total += term
    if (term <= total * 1e-18 && a >= 1) break
  }
  return total
}

/** Sum of the densities from `found` upwards; with b below 1 they may rise again towards n, so only then every one is taken. */
function sumUp(found: number, trials: MixedTrials): number {
  const { sampleSize: n, a, b } = trials
  let term = densityOf(found, trials)
  let total = term
  for (let d = found; d < n; d++) {
    term *= ((n - d) / (d + 1)) * ((d + a) / (n - d - 1 + b))
    total += term
    if (term <= total * 1e-18 && b >= 1) break
  }
  return total
}
