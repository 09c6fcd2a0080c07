// The number of nonconforming units in a sample from a process (or from a lot too large to matter).
import { count, exceeds, integer, probability as probabilityFrom0To1 } from '../check.ts'
import { leastInteger } from '../search.ts'
import { deviance, productError, rootFactor, stirlingError } from '../special.ts'

/** n units from a process of which the fraction p is nonconforming: whole n ≥ 0, 0 ≤ p ≤ 1. */
export type Trials = { sampleSize: number; fraction: number }

/**
 * Probability that the sample holds exactly `found` nonconforming units; 0 outside what is possible.
 *
 * Relative error below 1e-12 for samples up to 10,000,000 and values down to 1e-300, in constant time.
 *
 * @param found any whole number of units
 * @throws RangeError that names the argument out of range
 *
 * Source: saddle-point form of C. Loader (2000), with the mean n·p carried exactly.
 *
 * @example density(1, { sampleSize: 80, fraction: 0.01 }) // 0.3616
 */
export function density(found: number, trials: Trials): number {
  check(found, trials)

  return densityOf(found, trials)
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
 * @example atMost(2, { sampleSize: 125, fraction: 0.05 }) // 0.0477
 */
export function atMost(found: number, trials: Trials): number {
  check(found, trials)

  if (found < 0) return 0
  if (found >= trials.sampleSize) return 1
  return found < mean(trials) ? sumDown(found, trials) : 1 - sumUp(found + 1, trials)
}

/** Probability that the sample holds more than `found` nonconforming units, with the promise of {@link atMost} for its own tail. */
export function moreThan(found: number, trials: Trials): number {
  check(found, trials)

  if (found < 0) return 1
  if (found >= trials.sampleSize) return 0
  return found + 1 < mean(trials) ? 1 - sumDown(found, trials) : sumUp(found + 1, trials)
}

/**
 * Smallest number that the sample exceeds with probability 1 − `probability` at most; equality up to 1e-12 counts as met.
 *
 * @param probability from 0 to 1
 * @returns whole units
 * @throws RangeError that names the argument out of range
 */
export function quantile(probability: number, trials: Trials): number {
  probabilityFrom0To1('probability', probability)
  check(0, trials)

  if (probability === 1) return trials.sampleSize
  return leastInteger(0, trials.sampleSize, (found) => !exceeds(probability, atMost(found, trials)))
}

function check(found: number, { sampleSize, fraction }: Trials): void {
  integer('found', found)
  count('sampleSize', sampleSize)
  probabilityFrom0To1('fraction', fraction)
}

function mean({ sampleSize, fraction }: Trials): number {
  return sampleSize * fraction
}

function densityOf(d: number, { sampleSize: n, fraction: p }: Trials): number {
  if (d < 0 || d > n) return 0
  if (p === 0) return d === 0 ? 1 : 0
  if (p === 1) return d === n ? 1 : 0
  const expected = n * p
  const excess = d - expected - productError(n, p, expected)
  const errors = stirlingError(n) - stirlingError(d) - stirlingError(n - d)
  const roots = rootFactor(n) / rootFactor(d) / rootFactor(n - d)
  return Math.sqrt(roots) * Math.exp(errors - deviance(d, expected, excess) - deviance(n - d, n * (1 - p), -excess))
}

/** Sum of the densities from `found` downwards; below the mean each step shrinks faster than the one before. */
function sumDown(found: number, trials: Trials): number {
  const { sampleSize: n, fraction: p } = trials
  const odds = (1 - p) / p
  let term = densityOf(found, trials)
  let total = term
  for (let d = found; d > 0; d--) {
    term *= (d / (n - d + 1)) * odds
    total += term
    if (term <= total * 1e-18) break
  }
  return total
}

/** Sum of the densities from `found` upwards; above the mean each step shrinks faster than the one before. */
function sumUp(found: number, trials: Trials): number {
  const { sampleSize: n, fraction: p } = trials
  const odds = p / (1 - p)
  let term = densityOf(found, trials)
  let total = term
  for (let d = found; d < n; d++) {
    term *= ((n - d) / (d + 1)) * odds
    total += term
    if (term <= total * 1e-18) break
  }
  return total
}
