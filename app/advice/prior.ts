// What is believed of the next lot's fraction nonconforming before a cord of it is tested, and where that comes from.

import { surveyPrior } from '../history/rates.ts'
import { betaBinomialFit } from '../statistics/history/fit.ts'
import type { LotResult } from '../statistics/history/lots.ts'
import { shrunkRate } from '../statistics/history/rates.ts'

/** A beta distribution of the lot's fraction; it says as much as a + b tested cords of which a did not conform. */
export type Prior = {
  a: number
  b: number
  /**
   * typed: the buyer's own; own lots: fitted to how this supplier's lots differ; own cords: its cords so far upon a prior;
   * surveys: nothing of its own yet.
   */
  origin: 'typed' | 'own lots' | 'own cords' | 'surveys'
  /** what the prior beneath own cords is */
  beneath: 'other suppliers' | 'surveys' | undefined
  /** this supplier's decided lots, the cords recorded in them and those that counted as nonconforming */
  lots: number
  own: LotResult
}

/** Share in percent and the number of tested cords it is worth. */
export type TypedPrior = { percent: number; worth: number }

/** With fewer lots the fit of how lots differ rests on chance. */
const lotsForFit = 4

/**
 * The belief about the next lot of a supplier.
 *
 * Lots that stopped at the rejection number count with what was recorded: to a likelihood it does not matter why testing
 * stopped, where leaving them out would drop just the bad ones.
 *
 * @param own the supplier's decided lots, cords recorded and found nonconforming in each
 * @param others the same of every other supplier, all its lots taken together
 */
export function priorOf(own: LotResult[], others: LotResult[], typed: TypedPrior | undefined): Prior {
  const tested = own.filter((lot) => lot.sampleSize > 0)
  const sum = pooledOf(tested)
  const known = { lots: tested.length, own: sum }
  if (typed) {
    const share = typed.percent / 100
    return { a: share * typed.worth, b: (1 - share) * typed.worth, origin: 'typed', beneath: undefined, ...known }
  }
  if (tested.length >= lotsForFit) {
    const fit = betaBinomialFit(tested)
    if (fit.kind === 'fitted') return { a: fit.a, b: fit.b, origin: 'own lots', beneath: undefined, ...known }
  }
  if (sum.sampleSize === 0) return { ...surveyPrior, origin: 'surveys', beneath: undefined, ...known }
  const { prior, beneath } = priorBeneath(others)
  const { belief } = shrunkRate({ prior, own: sum, confidence: 0.9 })
  return { a: belief.a, b: belief.b, origin: 'own cords', beneath, ...known }
}

/** What suppliers are like, where the others can tell; else the surveys. */
function priorBeneath(others: LotResult[]) {
  const fit = others.length >= 3 ? betaBinomialFit(others) : undefined
  return fit?.kind === 'fitted'
    ? { prior: { a: fit.a, b: fit.b }, beneath: 'other suppliers' as const }
    : { prior: surveyPrior, beneath: 'surveys' as const }
}

function pooledOf(lots: LotResult[]): LotResult {
  return lots.reduce((sum, lot) => ({ sampleSize: sum.sampleSize + lot.sampleSize, found: sum.found + lot.found }), {
    sampleSize: 0,
    found: 0,
  })
}
