// How many of a lot's untested cords are expected to be nonconforming, by the supplier's finished lots of its item and its own sample.
import type { FinishedLot } from '../history/finished.ts'
import { priorOfFinished } from '../history/series-prior.ts'
import type { LotBounds } from '../lots/rules/bounds.ts'
import type { ExpectedUntested } from '../lots/rules/consequences.ts'

type LotToDecide = { links: { former?: unknown } }

type Tested = Pick<LotBounds, 'untested' | 'found' | 'recorded'>

/**
 * The posterior mean of a beta prior carried over to the untested cords: exact where cords are nonconforming one by one at
 * the lot's own rate, whenever testing stopped (conjugate beta and binomial; Gelman and others, Bayesian Data Analysis, from memory).
 *
 * @param prior parameters of the beta distribution of the lot's fraction, each above 0
 */
export function expectedBy({ a, b }: { a: number; b: number }, { untested, found, recorded }: Tested): number {
  return (untested * (a + found)) / (a + b + recorded)
}

/**
 * By the prior of the supplier's finished lots of the item and the sample. Undefined with fewer finished lots than are fitted, and for a lot that went back before, which the supplier's process did not make as it is.
 */
export function expectedUntestedOf(
  lot: LotToDecide,
  finished: readonly FinishedLot[],
  bounds: LotBounds,
): ExpectedUntested | undefined {
  if (lot.links.former) return undefined
  const prior = priorOfFinished(finished)
  if (prior.kind === 'too-few') return undefined
  return { cords: expectedBy(prior, bounds), by: { kind: 'finished-lots', lots: prior.lots } }
}
