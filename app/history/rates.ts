// What is believed of a supplier before its own lots say anything: how suppliers differ from one another.
import { betaBinomialFit } from '../statistics/history/fit.ts'
import type { Belief } from '../statistics/history/lower.ts'

/** Cords of the samples of decided lots, each as far as it was tested; what a screening tested besides is left out. */
export type SampledCords = { lots: number; sampleSize: number; found: number }

export type SampledSupplier = SampledCords & { id: number; name: string }

/**
 * The belief about a supplier of which nothing is known, worth two tested cords. Two published surveys of cords bought on
 * the open market had 322 of 499 and about 34 of 56 failing; both are by interested parties and no random samples.
 */
export const surveyPrior: Belief = { a: 1.2, b: 0.8 }

/**
 * The prior that a trend begins with: fitted to all suppliers, or the weak stated one where they cannot tell how they differ.
 *
 * Only the samples count, as each was drawn before anybody knew what is in the lot: the rest of a screened lot is tested
 * because its sample had failed. A sample that stopped at the rejection number counts with what was tested:
 * leaving it out would drop just the bad lots, and a likelihood does not ask why testing stopped.
 */
export function priorOfSuppliers(sampled: SampledSupplier[]): Belief {
  if (!sampled.some(({ sampleSize }) => sampleSize > 0)) return surveyPrior
  const fit = betaBinomialFit(sampled)
  return fit.kind === 'fitted' ? { a: fit.a, b: fit.b } : surveyPrior
}
