// Bisection over whole numbers for monotone conditions.

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
