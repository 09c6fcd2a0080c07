// What is bought, and what it demands: an item is defined and changed by the procurement officer.
import type { MarginalPolicy } from './judge.ts'

/** What the buyer says of an item. Decimals are plain text (digits with a point), so that none is rounded on its way. */
export type ItemTerms = {
  name: string
  /** category the maker claims, such as Category 6A */
  categoryClaimed: string
  /** the cord limit that the tester judges against, with its edition */
  cordLimit: string
  /** metres, above 0, at most 100 */
  lengthMetres: string
  marginalPolicy: MarginalPolicy
  /** the tester's accuracy at the limit, ± dB, from 0 to 20 */
  crosstalkAccuracy: string
  returnLossAccuracy: string
  /** too many: a whole number such as 5, or a share such as 1% */
  tooMany: string
  /** of 100 lots with too many, how many must be caught: above 0, below 100 */
  catchOf100: string
  /** whole cents */
  costTestCents: number
  costEscapeCents: number
  costReturnCents: number
}
