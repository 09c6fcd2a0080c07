// How often a tester and a guard band judge wrongly over all cords of a supplier.
import { finite } from './check.ts'
import { logAtMost, millsRatio } from './distributions/normal.ts'
import { checkUncertainty, type MarginPrior } from './guard-band.ts'
import { logIntegral } from './integral.ts'

/** The margins a supplier makes, the tester's standard uncertainty and the reading from which a cord passes, all in dB. */
export type Judging = { prior: MarginPrior; uncertainty: number; guardBand: number }

/** Shares of all cords: nonconforming and passed; conforming and failed. */
export type GlobalRisks = { consumers: number; producers: number }

/**
 * Global risks: the share of all cords that pass with a true margin below 0 dB, and that fail with one of 0 dB or more.
 *
 * Unlike the specific risk of one reading they depend on how good the supplier is; no cord has been measured yet.
 *
 * @param prior distribution of the true margins: mean in dB, standardDeviation in dB above 0
 * @param uncertainty standard uncertainty of the tester in dB, above 0
 * @param guardBand least reading that passes, in dB, any finite number
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
  finite('guardBand', guardBand)

  const { mean, standardDeviation } = prior
  return {
    consumers: belowButReadAbove(mean, standardDeviation, uncertainty, guardBand),
    // Turned round: a margin of 0 or more read below g is one of 0 or less, of mean −μ, read above −g.
    producers: belowButReadAbove(-mean, standardDeviation, uncertainty, -guardBand),
  }
}

/** P(T < 0 and T + error ≥ g), T normal with mean μ and standard deviation σ, the error with standard deviation u. */
function belowButReadAbove(μ: number, σ: number, u: number, g: number): number {
  const logScale = Math.log(σ) + Math.log(2 * Math.PI) / 2
  return Math.exp(
    logIntegral({
      logDensity: (t) => -(((t - μ) / σ) ** 2) / 2 + logAtMost((t - g) / u) - logScale,
      slope: (t) => (μ - t) / σ / σ + hazard((t - g) / u) / u,
      from: Number.NEGATIVE_INFINITY,
      to: 0,
      step: Math.min(σ, u) / 64,
    }),
  )
}

/** Density over distribution function, the slope of ln Φ(z). */
function hazard(z: number): number {
  return z < 0 ? 1 / millsRatio(-z) : Math.exp(-(z * z) / 2 - logAtMost(z)) / Math.sqrt(2 * Math.PI)
}
