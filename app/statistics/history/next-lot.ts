// What finished lots say of the next lot of the same process, where lots may differ however alike they look.
import { betaBinomialFit } from './fit.ts'
import { checkLots, type LotResult, pooled } from './lots.ts'

/** A beta distribution of the next lot's fraction nonconforming; it weighs as much as a + b tested units. */
export type NextLotPrior = { readonly a: number; readonly b: number }

/**
 * The maximum-likelihood beta-binomial distribution, which never weighs more than one of the lots does on average.
 *
 * Lots that look alike, or of which nothing was found, have no finite maximum: the likelihood would take them as one process for
 * certain. No number of lots shows that. So the next lot is never taken to be surer than from a whole lot like these, tested; the mean is then
 * (found + ½) ÷ (tested + 1). Lots that are each all good or all bad leave the weight of a single unit.
 *
 * @param lots units tested and found nonconforming in each; to a likelihood it does not matter why testing of a lot stopped
 * @throws RangeError that names the lot, or says that none was tested
 *
 * Source: of the bound, the prior that says as much as one unit of observation, here a lot: R. E. Kass & L. Wasserman (1995), JASA
 * 90, 928–934; of the mean, H. Jeffreys' prior of a fraction (both from memory).
 *
 * @example priorOfNextLot([0, 0, 1, 0, 0].map((found) => ({ sampleSize: 216, found }))) // a 0.2997, b 215.7
 */
export function priorOfNextLot(lots: readonly LotResult[]): NextLotPrior {
  checkLots(lots)
  const tested = lots.filter(({ sampleSize }) => sampleSize > 0)
  const sum = pooled(tested)
  const most = sum.sampleSize / tested.length
  const fit = betaBinomialFit(tested)
  if (fit.kind === 'fitted') {
    const weight = fit.a + fit.b
    return weight <= most ? { a: fit.a, b: fit.b } : weighing(fit.a / weight, most)
  }
  const apart = fit.reason === 'each lot all alike'
  return weighing((sum.found + 0.5) / (sum.sampleSize + 1), apart ? 1 : most)
}

function weighing(mean: number, weight: number): NextLotPrior {
  return { a: mean * weight, b: (1 - mean) * weight }
}
