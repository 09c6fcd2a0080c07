// The beta-binomial distribution fitted to a history by moments: in closed form, as a check of the likelihood and its start.
import { correlationWithin } from '../clustering/intraclass.ts'
import { checkLots, type LotResult, pooled } from './lots.ts'

/** The fitted distribution of the lots' fractions; or the pooled fraction, where the lots spread no more than binomial. */
export type MomentFit =
  | { readonly kind: 'fitted'; readonly a: number; readonly b: number; readonly correlation: number }
  | { readonly kind: 'no finite fit'; readonly fraction: number }

/**
 * Moment fit of a beta-binomial distribution over lots of any sizes.
 *
 * The mean is the pooled fraction p, and the correlation between two units of a lot, ρ = 1/(a + b + 1), is what pairs within
 * lots agree more than pairs at large (`correlationWithin`). For lots of one size that is the classical moment fit. It differs
 * from the likelihood's by a third on ordinary histories: name the estimate beside the number.
 *
 * @param lots units tested and found nonconforming in each; lots without tests are left out
 * @returns no finite fit where ρ is not above 0 and below 1, or every lot has one unit
 * @throws RangeError that names the lot, or says that none was tested
 *
 * Source: J. L. Fleiss and J. Cuzick (1979), Applied Psychological Measurement 3, 537–542 (from memory).
 */
export function momentFit(lots: readonly LotResult[]): MomentFit {
  checkLots(lots)

  const tested = lots.filter((lot) => lot.sampleSize > 0)
  const { sampleSize, found } = pooled(tested)
  const fraction = found / sampleSize
  const telling = found > 0 && found < sampleSize && sampleSize > tested.length
  const correlation = telling ? correlationWithin(tested) : 0
  if (!(correlation > 0 && correlation < 1)) return { kind: 'no finite fit', fraction }
  const worth = 1 / correlation - 1
  return { kind: 'fitted', a: fraction * worth, b: (1 - fraction) * worth, correlation }
}
