// The noncentral t distribution: what a mean divided by its own standard deviation does when the true mean is not 0.
import { between, openProbability } from '../check.ts'
import { integrate } from '../quadrature.ts'
import { rootBetween } from '../root.ts'
import { stirlingError } from '../special.ts'
import * as normal from './normal.ts'

/** Degrees of freedom ν from 0.01 to 1e9, not necessarily whole, and noncentrality δ from −1e6 to 1e6. */
export type Noncentral = { degreesOfFreedom: number; noncentrality: number }

const farthest = 1e15

/**
 * Density at t, −1e15 ≤ t ≤ 1e15. Relative error below 1e-10 down to 1e-290.
 *
 * @throws RangeError that names the argument out of range
 */
export function density(t: number, law: Noncentral): number {
  check(t, law)

  const { degreesOfFreedom, noncentrality } = law
  return overScale(degreesOfFreedom, {
    logFactor: (u) => u - (t * Math.exp(u) - noncentrality) ** 2 / 2,
    factor: (u) => Math.exp(u) * normal.density(t * Math.exp(u) - noncentrality),
    cuts: [],
  })
}

/**
 * Probability of t or less: P((Z + δ) ÷ S ≤ t), Z normal, ν·S² chi-square with ν degrees of freedom, independent of Z.
 *
 * Relative error below 1e-10 down to 1e-290, whatever the signs, for |δ| up to 1e5; 1e-9 beyond, where t·S − δ has no more digits.
 * The usual series of incomplete beta functions loses a small tail in terms of both signs.
 *
 * @param t from −1e15 to 1e15
 * @throws RangeError that names the argument out of range
 *
 * Source: the definition, with the normal probability integrated over ln S; nothing in it is negative.
 *
 * @example atMost(5.2, { degreesOfFreedom: 9, noncentrality: 3.5 }) // 0.8395
 */
export function atMost(t: number, law: Noncentral): number {
  check(t, law)

  const { degreesOfFreedom, noncentrality } = law
  const rise = Math.log(noncentrality / t) // where t·S passes δ, and the normal probability from 0 to 1
  const width = 8 / Math.abs(noncentrality)
  const probability = overScale(degreesOfFreedom, {
    logFactor: (u) => normal.logAtMost(t * Math.exp(u) - noncentrality),
    factor: (u) => normal.atMost(t * Math.exp(u) - noncentrality),
    cuts: Number.isFinite(rise) ? [rise - width, rise, rise + width] : [],
  })
  return Math.min(1, probability)
}

/** Probability above t, with the promise of {@link atMost} for its own tail. */
export function moreThan(t: number, { degreesOfFreedom, noncentrality }: Noncentral): number {
  return atMost(-t, { degreesOfFreedom, noncentrality: -noncentrality })
}

/**
 * The value that is not exceeded with the given probability; relative error below 1e-10 (absolute where it is next to 0).
 *
 * @param probability above 0 and below 1
 * @throws RangeError that names the argument out of range, or that the value lies beyond ±1e15
 *
 * @example quantile(0.95, { degreesOfFreedom: 9, noncentrality: 4.0526 }) // 7.446: √10 times the tolerance factor 2.3546
 */
export function quantile(probability: number, law: Noncentral): number {
  openProbability('probability', probability)
  check(0, law)

  const above = (t: number) =>
    probability <= 0.5
      ? Math.log(atMost(t, law)) - Math.log(probability)
      : Math.log(1 - probability) - Math.log(moreThan(t, law))
  const { degreesOfFreedom, noncentrality } = law
  let step = Math.sqrt(1 + noncentrality ** 2 / (2 * degreesOfFreedom))
  let low = noncentrality
  let high = noncentrality
  const rising = above(noncentrality) < 0
  while (rising ? above(high) < 0 : above(low) > 0) {
    if (Math.abs(rising ? high : low) === farthest)
      throw new RangeError(`probability must have its value between ±${farthest}, not ${probability}`)
    if (rising) [low, high] = [high, Math.min(farthest, high + step)]
    else [low, high] = [Math.max(-farthest, low - step), low]
    step *= 2
  }
  return rootBetween(low, high, above)
}

function check(t: number, { degreesOfFreedom, noncentrality }: Noncentral): void {
  between('t', t, -farthest, farthest)
  between('degreesOfFreedom', degreesOfFreedom, 0.01, 1e9)
  between('noncentrality', noncentrality, -1e6, 1e6)
}

/** What is averaged over u = ln S, its logarithm, and where it changes quickly. */
type Average = { factor: (u: number) => number; logFactor: (u: number) => number; cuts: number[] }

/** Expectation over the distribution of u = ln S; density times factor have one peak, and are cut where they fall below e⁻⁴² of it. */
function overScale(degreesOfFreedom: number, { factor, logFactor, cuts }: Average): number {
  const exponent = (u: number) => -degreesOfFreedom * (Math.expm1(2 * u) / 2 - u)
  const height = (u: number) => exponent(u) + logFactor(u)
  const peak = peakOf(height, -60 - 60 / degreesOfFreedom, 20)
  const low = edgeOf(height, peak, -1e-9)
  const high = edgeOf(height, peak, 1e-9)
  const inside = cuts.filter((u) => u > low && u < high)
  const points = [low, ...inside, peak, high].sort((first, second) => first - second)
  const constant = Math.sqrt(degreesOfFreedom / Math.PI) * Math.exp(-stirlingError(degreesOfFreedom / 2))
  return constant * integrate((u) => Math.exp(exponent(u)) * factor(u), points)
}

/** Where a function with one peak has it, to a part of the width that does not matter, by golden section. */
function peakOf(height: (u: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2
  let low = from
  let high = to
  let left = high - golden * (high - low)
  let right = low + golden * (high - low)
  let leftHeight = height(left)
  let rightHeight = height(right)
  while (high - low > 1e-9) {
    if (leftHeight < rightHeight) {
      low = left
      left = right
      leftHeight = rightHeight
      right = low + golden * (high - low)
      rightHeight = height(right)
    } else {
      high = right
      right = left
      rightHeight = leftHeight
      left = high - golden * (high - low)
      leftHeight = height(left)
    }
  }
  return (low + high) / 2
}

function edgeOf(height: (u: number) => number, peak: number, firstStep: number): number {
  const least = height(peak) - 42
  let step = firstStep
  while (height(peak + step) > least) step *= 2
  return peak + step
}
