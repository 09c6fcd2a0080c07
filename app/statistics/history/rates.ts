// The rate of each supplier, drawn towards what suppliers are like: the less was tested, the more.
import { count, openProbability, riskOf } from '../check.ts'
import * as beta from '../distributions/beta.ts'
import { betaBinomialFit, type Fit } from './fit.ts'
import type { LotResult } from './lots.ts'
import type { Belief } from './lower.ts'

/** What is believed of one supplier's fraction nonconforming after its own units. */
export type Rate = {
  /** The posterior: prior and own units together. */
  readonly belief: Belief
  readonly mean: number
  /** Equal-tailed interval at the confidence asked for. */
  readonly lower: number
  readonly upper: number
  /** Share of the own units in the mean; the rest is the prior's. */
  readonly ownShare: number
}

/**
 * Rate of one supplier under a prior.
 *
 * @param prior beta distribution of suppliers' fractions, worth a + b tested units
 * @param own units tested and found nonconforming, 0 for a new supplier
 * @param confidence of the interval, shared by both sides, in (0, 1)
 * @throws RangeError that names the argument out of range
 *
 * Source: beta prior and binomial sample; shrinkage as in B. Efron and C. Morris (1977), Scientific American 236(5), 119–127.
 *
 * @example shrunkRate({ prior: { a: 1.4, b: 8.6 }, own: { sampleSize: 14, found: 4 }, confidence: 0.9 }) // mean 0.225
 */
export function shrunkRate({ prior, own, confidence }: { prior: Belief; own: LotResult; confidence: number }): Rate {
  const { sampleSize, found } = own
  count('own.sampleSize', sampleSize)
  count('own.found', found, 0, sampleSize)
  openProbability('confidence', confidence)

  const belief = { a: prior.a + found, b: prior.b + (sampleSize - found) }
  const tail = riskOf(confidence) / 2
  return {
    belief,
    mean: belief.a / (belief.a + belief.b),
    lower: beta.quantile(tail, belief),
    upper: beta.upperQuantile(tail, belief),
    ownShare: sampleSize / (prior.a + prior.b + sampleSize),
  }
}

/** The rates of all suppliers, and the prior that they were drawn towards. */
export type SupplierRates = {
  /** Fitted to the suppliers themselves; or stated by the reader, where they cannot tell how much suppliers differ. */
  readonly priorFrom: 'suppliers' | 'reader'
  readonly prior: Belief
  readonly fit: Fit
  readonly rates: readonly Rate[]
}

/**
 * Empirical-Bayes rate of every supplier, in the order given: the prior is the beta-binomial distribution fitted over the
 * suppliers. Where that has no finite maximum (too few suppliers, nothing found, no more spread than chance) the reader's
 * own prior serves, and the answer says so. The intervals take the fitted prior as known: with few suppliers they are too short.
 *
 * @param suppliers units tested and found over all lots of each; at least one unit in all
 * @param stated the reader's prior, for when the suppliers cannot give one
 * @throws RangeError that names the argument out of range
 *
 * Source: C. N. Morris (1983), Journal of the American Statistical Association 78, 47–55 (from memory).
 */
export function supplierRates(question: {
  readonly suppliers: readonly LotResult[]
  readonly stated: Belief
  readonly confidence: number
}): SupplierRates {
  const { suppliers, stated, confidence } = question
  const fit = betaBinomialFit(suppliers)
  const fitted = fit.kind === 'fitted'
  const prior = fitted ? { a: fit.a, b: fit.b } : stated
  const rates = suppliers.map((own) => shrunkRate({ prior, own, confidence }))
  return { priorFrom: fitted ? 'suppliers' : 'reader', prior, fit, rates }
}
