// How alike units of one group are (carton, spool, lot), estimated from counts in several groups.
import { moreThan } from '../distributions/normal.ts'
import { betaBinomialFit } from '../history/fit.ts'
import { checkLots, type LotResult, pooled } from '../history/lots.ts'

/**
 * Estimates of the correlation between two units of one group, by their names, and the test that there is none.
 * Estimates of one kind and another differ by a third on ordinary data: show the name beside the number.
 */
export type Intraclass =
  | {
      readonly kind: 'estimated'
      /** Fraction nonconforming over all groups together. */
      readonly fraction: number
      /** Maximum likelihood of the beta-binomial law, 1 ÷ (a + b + 1); 0 where groups differ no more than by chance. */
      readonly likelihood: number
      /** From the mean squares between and within groups; may be below 0. */
      readonly analysisOfVariance: number
      /** From the variation within groups; may be below 0. */
      readonly withinGroups: number
      /** From the weighted variance of the groups' fractions; may be below 0. */
      readonly moments: number
      /** Test that groups differ only by chance: about standard normal then, large where they differ more. */
      readonly z: number
      /** One-sided, by the normal approximation. */
      readonly pValue: number
    }
  | { readonly kind: 'no information'; readonly fraction: number; readonly reason: NoInformation }

/** Why groups cannot tell how alike their units are. */
export type NoInformation = 'none found' | 'all found' | 'one group' | 'one unit in each group'

/**
 * Correlation within groups from the number found in each: by likelihood, by the analysis of variance, by the variation
 * within groups (Fleiss and Cuzick) and by moments with weights nᵢ (Kleinman), with Tarone's test.
 *
 * @param groups units tested and found nonconforming in each; groups without tests are left out
 * @returns estimates, or why there are none
 * @throws RangeError that names the group, or says that none was tested
 *
 * Source: J. L. Fleiss & J. Cuzick (1979), Appl. Psychol. Meas. 3, 537–542; J. C. Kleinman (1973), J. Amer. Statist.
 * Assoc. 68, 46–54; R. E. Tarone (1979), Biometrika 66, 585–590 (formulas from memory, checked in the test).
 *
 * @example intraclassCorrelation([{ sampleSize: 10, found: 0 }, { sampleSize: 10, found: 6 }, { sampleSize: 10, found: 1 }])
 *   // analysis of variance 0.43, likelihood 0.30
 */
export function intraclassCorrelation(groups: readonly LotResult[]): Intraclass {
  checkLots(groups)

  const tested = groups.filter(({ sampleSize }) => sampleSize > 0)
  const { sampleSize: N, found } = pooled(tested)
  const p = found / N
  const reason = noInformation(tested, p)
  if (reason) return { kind: 'no information', fraction: p, reason }

  const k = tested.length
  const sum = (of: (n: number, x: number) => number) =>
    tested.reduce((total, group) => total + of(group.sampleSize, group.found), 0)
  const between = sum((n, x) => n * (x / n - p) ** 2)
  const within = sum((n, x) => (x * (n - x)) / n)
  const effective = N - sum((n) => n * n) / N // N − Σn²/N, k − 1 times the mean group size
  const meanBetween = between / (k - 1)
  const meanWithin = within / (N - k)
  const variance = p * (1 - p)
  const z = (sum((n, x) => (x - n * p) ** 2) / variance - N) / Math.sqrt(2 * sum((n) => n * (n - 1)))
  return {
    kind: 'estimated',
    fraction: p,
    likelihood: likelihoodOf(tested),
    analysisOfVariance: (meanBetween - meanWithin) / (meanBetween + (effective / (k - 1) - 1) * meanWithin),
    withinGroups: correlationWithin(tested),
    moments: (between / variance - (k - 1)) / (effective - (k - 1)),
    z,
    pValue: moreThan(z),
  }
}

/**
 * Correlation from the variation within groups, 1 − Σ x(n − x)/n ÷ ((Σn − k)·p(1 − p)); may be below 0.
 *
 * @param groups with tests in each, two units in one of them at least, and p neither 0 nor 1
 *
 * Source: J. L. Fleiss & J. Cuzick (1979), Appl. Psychol. Meas. 3, 537–542 (from memory).
 */
export function correlationWithin(groups: readonly LotResult[]): number {
  const { sampleSize, found } = pooled(groups)
  const p = found / sampleSize
  const within = groups.reduce((total, { sampleSize: n, found: x }) => total + (x * (n - x)) / n, 0)
  return 1 - within / ((sampleSize - groups.length) * p * (1 - p))
}

function noInformation(groups: readonly LotResult[], fraction: number): NoInformation | undefined {
  if (fraction === 0) return 'none found'
  if (fraction === 1) return 'all found'
  if (groups.length === 1) return 'one group'
  return groups.every(({ sampleSize }) => sampleSize === 1) ? 'one unit in each group' : undefined
}

function likelihoodOf(groups: readonly LotResult[]): number {
  const fit = betaBinomialFit(groups)
  if (fit.kind === 'fitted') return 1 / (fit.a + fit.b + 1)
  return fit.reason === 'each lot all alike' ? 1 : 0
}
