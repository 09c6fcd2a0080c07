// What an item may say: each field within what the register can hold and the judging can read.

import { refuseUnwanted } from '../kit/characters.ts'
import { type ClauseColumns, checkedClause, type SaidClause } from '../kit/clause.ts'
import { compareDecimals, wholeCords } from '../kit/decimal.ts'
import { largestCost, largestGroup, largestLot, lengths, smallestGroup } from '../kit/limits.ts'
import { Refusal } from '../kit/refusal.ts'
import type { AfterRejection } from '../statistics/economics/costs.ts'
import type { InspectionLevel } from '../statistics/plans/tables/code-letters.ts'
import { acceptanceQualityLimits } from '../statistics/plans/tables/table.ts'
import type { DecisionRule, UndecidedRule } from '../terms/item.ts'

/** What the buyer says of an item. Decimals are plain text (digits with a point), so that none is rounded on its way. */
export type ItemTerms = {
  name: string
  /** category the maker claims, such as Category 6A */
  categoryClaimed: string
  /** the cord limit that the tester judges against, with its edition */
  cordLimit: string
  /** metres, above 0, at most 100 */
  lengthMetres: string
  marginalPolicy: DecisionRule
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
  /** cords in a critical place: a lot is always tested whole */
  critical: boolean
  /** of the published attributes standard, in percent, as its tables write it; null where no contract names one */
  acceptanceQualityLimit: string | null
  inspectionLevel: InspectionLevel
  /** percent of the announced number, from 0 to 100: a count that differs by more leaves the plan to the officer */
  countDifferencePercent: string
  afterRejection: AfterRejection
  undecidedCounts: UndecidedRule
  /** cords that the bench tests in an hour: a group where one goes cord by cord in groups */
  groupSize: number
} & SaidClause

/** Returns the terms as they are kept; throws Refusal that names the first field to mend. */
export function checkedTerms(terms: ItemTerms): ItemTerms & ClauseColumns {
  text('name', 'item/name', terms.name)
  text('categoryClaimed', 'item/category', terms.categoryClaimed)
  text('cordLimit', 'item/cord-limit', terms.cordLimit)
  decimal('lengthMetres', 'item/length', terms.lengthMetres, { above: '0', most: '100' })
  decimal('crosstalkAccuracy', 'item/accuracy', terms.crosstalkAccuracy, { least: '0', most: '20' })
  decimal('returnLossAccuracy', 'item/accuracy', terms.returnLossAccuracy, { least: '0', most: '20' })
  decimal('catchOf100', 'item/catch-of-100', terms.catchOf100, {
    above: '0',
    below: '100',
  })
  decimal('countDifferencePercent', 'item/count-difference', terms.countDifferencePercent, { least: '0', most: '100' })
  cents('costTestCents', terms.costTestCents)
  cents('costEscapeCents', terms.costEscapeCents)
  cents('costReturnCents', terms.costReturnCents)
  qualityLimit(terms.acceptanceQualityLimit)
  group(terms.groupSize)
  return { ...trimmed(terms), ...checkedClause(terms), tooMany: plainTooMany(terms.tooMany) }
}

function trimmed(terms: ItemTerms): ItemTerms {
  const { name, categoryClaimed, cordLimit } = terms
  return { ...terms, name: name.trim(), categoryClaimed: categoryClaimed.trim(), cordLimit: cordLimit.trim() }
}

function text(field: string, code: 'item/name' | 'item/category' | 'item/cord-limit', value: string): void {
  const { length } = value.trim()
  if (length === 0 || length > lengths.name) throw new Refusal('invalid', code, {}, field)
  refuseUnwanted(field, value.trim())
}

type OutOfSpan = 'item/length' | 'item/accuracy' | 'item/catch-of-100' | 'item/count-difference'
type Span = { least?: string; above?: string; most?: string; below?: string }

function decimal(field: string, code: OutOfSpan, value: string, { least, above, most, below }: Span): void {
  const fits =
    /^\d{1,6}(\.\d{1,9})?$/.test(value) &&
    (least === undefined || compareDecimals(value, least) >= 0) &&
    (above === undefined || compareDecimals(value, above) > 0) &&
    (most === undefined || compareDecimals(value, most) <= 0) &&
    (below === undefined || compareDecimals(value, below) < 0)
  if (!fits) throw new Refusal('invalid', code, {}, field)
}

function qualityLimit(named: string | null): void {
  if (named !== null && !acceptanceQualityLimits.some((limit) => limit === named))
    throw new Refusal('invalid', 'item/quality-limit', {}, 'acceptanceQualityLimit')
}

function group(size: number): void {
  if (!Number.isInteger(size) || size < smallestGroup || size > largestGroup)
    throw new Refusal('invalid', 'item/group-size', { least: smallestGroup, most: largestGroup }, 'groupSize')
}

function cents(field: string, value: number): void {
  if (!Number.isSafeInteger(value) || value < 0 || value > largestCost)
    throw new Refusal('invalid', 'item/cost', {}, field)
}

/** One way of writing for one thing: '0,5 %' and '0.5%' are both kept as '0.5%'. */
function plainTooMany(typed: string): string {
  const plain = typed
    .replace(/\s/g, '')
    .replace(',', '.')
    .replace(/^0+(?=\d)/, '')
  if (wholeCords(plain, largestLot) === undefined) throw new Refusal('invalid', 'item/too-many', {}, 'tooMany')
  return plain
}
