// Searches over whole numbers for monotone conditions.
import { exceeds } from './check.ts'

/** Largest whole number from `low` to `high` for which `holds` is true, where it is true up to a point; `low` if it never is above. */
export function greatestInteger(low: number, high: number, holds: (value: number) => boolean): number {
  let known = low
  let beyond = high + 1
  while (beyond - known > 1) {
    const middle = Math.floor((known + beyond) / 2)
    if (holds(middle)) known = middle
    else beyond = middle
  }
  return known
}

/** Smallest whole number from `low` to `high` for which `holds` is true, where it is true from a point on; `high` if it never is below. */
export function leastInteger(low: number, high: number, holds: (value: number) => boolean): number {
  let short = low - 1
  let known = high
  while (known - short > 1) {
    const middle = Math.floor((short + known) / 2)
    if (holds(middle)) known = middle
    else short = middle
  }
  return known
}

/**
 * Smallest whole number from `low` to `high` for which a falling positive `value` is at most `risk` (equality up to 1e-12 counts);
 * `high` if it never is below. Secant steps on the logarithm, halving where they are slow.
 */
export function leastMeeting(low: number, high: number, risk: number, value: (at: number) => number): number {
  let short = { at: low - 1, excess: Number.NaN }
  let known = { at: high, excess: Number.NaN }
  for (let turn = 0; known.at - short.at > 1; turn++) {
    const width = known.at - short.at
    const share = turn % 3 === 2 ? 0.5 : short.excess / (short.excess - known.excess)
    const step = Number.isFinite(share) ? Math.ceil(width * share) : Math.ceil(width / 2)
    const at = short.at + Math.min(width - 1, Math.max(1, step))
    const reached = value(at)
    const point = { at, excess: Math.log(reached / risk) }
    if (exceeds(reached, risk)) short = point
    else known = point
  }
  return known.at
}
