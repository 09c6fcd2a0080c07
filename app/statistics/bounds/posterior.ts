// What a beta prior on the fraction and a sample say together about the units that were not tested.
import { count, openProbability, positive } from '../check.ts'
import { density, quantile } from '../distributions/beta-binomial.ts'

/** What is believed of the fraction before the sample: a beta distribution with mean a ÷ (a + b), worth a + b tested units of which a were nonconforming. */
export type BetaPrior = { readonly a: number; readonly b: number }

/** A sample of a lot, the prior it is read with, and the probability the quantile is wanted for. */
export type PriorEvidence = {
  lotSize: number
  sampleSize: number
  found: number
  prior: BetaPrior
  probability: number
}

/** The number nonconforming among the untested: its mean, the chance that there are none, and its quantile. */
export type PosteriorOfRemainder = { mean: number; clean: number; quantile: number }

/**
 * Posterior of the number of nonconforming units among the untested.
 *
 * The units of the lot are taken as one by one from a process whose fraction is beta (a, b) distributed from lot to lot;
 * after d of n it is beta (a + d, b + n − d), and the untested follow the beta-binomial law with those numbers. Unlike
 * a confidence bound the statement stands or falls with the prior, best taken from the supplier's earlier lots.
 *
 * @param lotSize units in the lot, N ≥ 1
 * @param sampleSize units tested, 0 ≤ n ≤ N
 * @param found nonconforming units among them, 0 ≤ d ≤ n
 * @param prior a and b, both above 0
 * @param probability 0 < probability < 1
 * @returns mean in units; clean = P(none); quantile = the smallest k with P(at most k) ≥ probability
 * @throws RangeError that names the argument out of range
 *
 * Source: conjugate updating of the beta-binomial model, e.g. A. Gelman et al., Bayesian Data Analysis, chapter 2 (from memory).
 *
 * @example posteriorOfRemainder({ lotSize: 480, sampleSize: 48, found: 0, prior: { a: 1, b: 1 }, probability: 0.95 })
 *   // mean 8.64, clean 0.102, quantile 27
 */
export function posteriorOfRemainder(evidence: PriorEvidence): PosteriorOfRemainder {
  const { lotSize, sampleSize, found, prior, probability } = evidence
  count('lotSize', lotSize, 1)
  count('sampleSize', sampleSize, 0, lotSize)
  count('found', found, 0, sampleSize)
  positive('prior.a', prior.a)
  positive('prior.b', prior.b)
  openProbability('probability', probability)

  const a = prior.a + found
  const b = prior.b + sampleSize - found
  const untested = { sampleSize: lotSize - sampleSize, a, b }
  return {
    mean: untested.sampleSize * (a / (a + b)),
    clean: density(0, untested),
    quantile: quantile(probability, untested),
  }
}
