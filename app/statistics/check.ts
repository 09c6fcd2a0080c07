// Argument checks of the engine: every exported function says which argument is wrong, its value and its domain.
// Text that looks like a number is refused too: '5' would be compared as 5 and then added as text.

/** A whole number from `least` to `most`; throws RangeError otherwise. */
export function count(name: string, value: number, least = 0, most = Number.MAX_SAFE_INTEGER): void {
  if (!Number.isInteger(value) || value < least || value > most)
    throw new RangeError(`${name} must be a whole number ${spanOf(least, most)}, not ${value}`)
}

/** Any whole number, negative ones included; throws RangeError otherwise. */
export function integer(name: string, value: number): void {
  if (!Number.isInteger(value)) throw new RangeError(`${name} must be a whole number, not ${value}`)
}

/** A number strictly between 0 and 1; throws RangeError otherwise. */
export function openProbability(name: string, value: number): void {
  if (!(Number.isFinite(value) && value > 0 && value < 1))
    throw new RangeError(`${name} must be above 0 and below 1, not ${value}`)
}

/** A number from 0 to 1, ends included; throws RangeError otherwise. */
export function probability(name: string, value: number): void {
  if (!(Number.isFinite(value) && value >= 0 && value <= 1))
    throw new RangeError(`${name} must be from 0 to 1, not ${value}`)
}

/** A number from `least` to `most`, ends included; throws RangeError otherwise. */
export function between(name: string, value: number, least: number, most: number): void {
  if (!(Number.isFinite(value) && value >= least && value <= most))
    throw new RangeError(`${name} must be ${spanOf(least, most)}, not ${value}`)
}

/** A finite number; throws RangeError otherwise. */
export function finite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a finite number, not ${value}`)
}

/** A finite number above 0; throws RangeError otherwise. */
export function positive(name: string, value: number): void {
  if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name} must be above 0, not ${value}`)
}

/**
 * The risk that a confidence leaves, 1 − confidence in decimal. In binary 1 − 0.9 is 0.09999999999999998, and
 * for 100 cords, 90 tested, none found the exact bound at 90 % would be 1 instead of 0.
 */
export function riskOf(confidence: number): number {
  return Number((1 - confidence).toFixed(16))
}

/** Whether a probability is above a risk; equality, up to the last digits of the arithmetic, counts as met. */
export function exceeds(value: number, risk: number): boolean {
  return value > risk * (1 + 1e-12)
}

function spanOf(least: number, most: number): string {
  return most === Number.MAX_SAFE_INTEGER ? `of at least ${least}` : `from ${least} to ${most}`
}
