// How often a tester and a guard band judge wrongly over all cords of a supplier.
import { between } from '../check.ts'
import { logAtMost, millsRatio } from '../distributions/normal.ts'
import { integrate } from '../quadrature.ts'
import { rootBetween } from '../root.ts'
import { checkUncertainty, type MarginPrior } from './guard-band.ts'

/** The margins a supplier makes, the tester's standard uncertainty and the reading from which a cord passes, all in dB. */
export type Judging = { prior: MarginPrior; uncertainty: number; guardBand: number }

/** Shares of all cords: nonconforming and passed; conforming and failed. */
export type GlobalRisks = { consumers: number; producers: number }

/**
 * Global risks: the share of all cords that pass with a true margin below 0 dB, and that fail with one of 0 dB or more.
 *
 * Unlike the specific risk of one reading they depend on how good the supplier is; no cord has been measured yet.
 *
 * @param prior distribution of the true margins: as for `chanceConforming`
 * @param uncertainty standard uncertainty of the tester in dB, 1e-9 to 1e9
 * @param guardBand least reading that passes, in dB, −1e6 to 1e6
 * @returns two probabilities of the joint event, each exact to about 1e-12 of itself down to 1e-300
 * @throws RangeError that names the argument out of range
 *
 * Source: JCGM 106:2012, clause 9 (normal prior and measurement; from memory), by quadrature over the true margin.
 *
 * @example globalRisks({ prior: { mean: 2.5, standardDeviation: 2 }, uncertainty: 0.5, guardBand: 0 })
 *   // 1.49 % of all cords pass wrongly, 2.19 % fail wrongly
 */
export function globalRisks({ prior, uncertainty, guardBand }: Judging): GlobalRisks {
  checkUncertainty(uncertainty, prior)
  between('guardBand', guardBand, -1e6, 1e6)

  const { mean, standardDeviation } = prior
  return {
    consumers: belowButReadAbove(mean, standardDeviation, uncertainty, guardBand),
    // Turned round: a margin of 0 or more read below g is one of 0 or less, of mean −μ, read above −g.
    producers: belowButReadAbove(-mean, standardDeviation, uncertainty, -guardBand),
  }
}

/** P(T < 0 and T + error ≥ g), T normal with mean μ and standard deviation σ, the error with standard deviation u. */
function belowButReadAbove(μ: number, σ: number, u: number, g: number): number {
  const slope = (t: number) => (μ - t) / σ / σ + hazard((t - g) / u) / u
  const step = -Math.min(σ, u) / 64
  const peak = peakBelowZero(slope, step)
  // Counted from the peak, as t itself has no digits for a spread of 1e-9 dB around a mean of 1,000.
  const fromMean = peak - μ
  const fromBand = peak - g
  const height = (d: number) => -(((fromMean + d) / σ) ** 2) / 2 + logAtMost((fromBand + d) / u)
  const top = height(0)
  if (top < -800) return 0 // below the least number, and too high a power to have digits
  const from = farEnd(height, step)
  const to = Math.min(-peak, farEnd(height, -step))
  const cuts = [-8 * u - fromBand, -fromBand, 8 * u - fromBand, 0].filter((d) => from < d && d < to)
  const points = [from, ...cuts, to].sort((first, second) => first - second)
  // The height of the peak is taken out, so that nothing underflows before the end.
  const area = integrate((d) => Math.exp(height(d) - top), points)
  return (area / σ / Math.sqrt(2 * Math.PI)) * Math.exp(top)
}

/** Where a falling slope becomes 0, or 0 where it is positive up to there. */
function peakBelowZero(slope: (t: number) => number, step: number): number {
  if (slope(0) >= 0) return 0
  let before = 0
  let after = step
  while (slope(after) < 0) {
    before = after
    after *= 2
  }
  return rootBetween(after, before, slope)
}

/** How far from the peak the density has fallen to e⁻⁴⁵ of it, below the last digit of the whole. */
function farEnd(height: (distance: number) => number, step: number): number {
  let width = step
  while (height(width) > height(0) - 45) width *= 2
  return width
}

/** Density over distribution function, the slope of ln Φ(z). */
function hazard(z: number): number {
  return z < 0 ? 1 / millsRatio(-z) : Math.exp(-(z * z) / 2 - logAtMost(z)) / Math.sqrt(2 * Math.PI)
}
