// The number of events where none prevents another, such as nonconformities counted on a length of cable.
import { between, integer } from '../check.ts'
import { deviance, rootFactor, stirlingError } from '../special.ts'

/** Expected number of events λ, from 0 to 1e12. */
export type Events = { mean: number }

/**
 * Probability of exactly `found` events. Relative error below 1e-12 down to 1e-300, in constant time.
 *
 * @param found any whole number
 * @throws RangeError that names the argument out of range
 *
 * Source: saddle-point form of C. Loader (2000).
 *
 * @example density(2, { mean: 1.5 }) // 0.2510
 */
export function density(found: number, events: Events): number {
  check(found, events)

  return densityOf(found, events)
}

/**
 * Probability of `found` events or fewer. Relative error below 1e-12 (1e-11 for a mean above 1,000,000) down to 1e-300: terms are
 * summed from the greatest outwards until they no longer count, on the side where the sum is small.
 *
 * @param found any whole number
 * @throws RangeError that names the argument out of range
 *
 * @example atMost(3, { mean: 125 * 0.01 }) // 0.9617
 */
export function atMost(found: number, events: Events): number {
  check(found, events)

  if (found < 0) return 0
  return found < events.mean ? sumDown(found, events) : 1 - sumUp(found + 1, events)
}

/** Probability of more than `found` events, with the promise of {@link atMost} for its own tail. */
export function moreThan(found: number, events: Events): number {
  check(found, events)

  if (found < 0) return 1
  return found + 1 < events.mean ? 1 - sumDown(found, events) : sumUp(found + 1, events)
}

function check(found: number, { mean }: Events): void {
  integer('found', found)
  between('mean', mean, 0, 1e12)
}

function densityOf(d: number, { mean }: Events): number {
  if (d < 0) return 0
  if (mean === 0) return d === 0 ? 1 : 0
  return Math.exp(-stirlingError(d) - deviance(d, mean, d - mean)) / Math.sqrt(rootFactor(d))
}

function sumDown(found: number, events: Events): number {
  let term = densityOf(found, events)
  let total = term
  for (let d = found; d > 0; d--) {
    term *= d / events.mean
    total += term
    if (term <= total * 1e-18) break
  }
  return total
}

function sumUp(found: number, events: Events): number {
  let term = densityOf(found, events)
  let total = term
  for (let d = found + 1; term > total * 1e-18; d++) {
    term *= events.mean / d
    total += term
  }
  return total
}
