// What the pages of items take: typed numbers become plain decimals and whole cents.

import { z } from 'zod'
import { plainDecimal } from '../../kit/decimal.ts'
import { choice, clauseFields, formKey, formVersion, text, wholeNumber } from '../../kit/fields.ts'
import { largestLot, lengths } from '../../kit/limits.ts'
import { centsFrom } from '../../kit/money.ts'
import { inspectionLevels } from '../../statistics/plans/tables/code-letters.ts'
import { type AcceptanceQualityLimit, acceptanceQualityLimits } from '../../statistics/plans/tables/table.ts'
import { afterRejections, decisionRules, undecidedRules } from '../../terms/item.ts'

const fields = {
  key: formKey,
  name: text('Give the item a name', lengths.name),
  categoryClaimed: text('Name the category that the maker claims', lengths.name),
  cordLimit: text('Name the cord limit that is tested against, with its edition', lengths.name),
  lengthMetres: decimal('Type the length in metres, such as 2 or 0.5'),
  marginalPolicy: choice(decisionRules, 'Choose how marginal cords count'),
  crosstalkAccuracy: decimal('Type the accuracy in dB, such as 1.2'),
  returnLossAccuracy: decimal('Type the accuracy in dB, such as 1.2'),
  tooMany: text('Type what is too many, such as 5 or 1%', 40),
  catchOf100: decimal('Type how many of 100, such as 95'),
  costTest: amount(),
  costEscape: amount(),
  costReturn: amount(),
  critical: choice(['no', 'yes'], 'Say whether the place is critical').default('no'),
  acceptanceQualityLimit: z
    .enum(['', ...acceptanceQualityLimits], { error: 'Choose a limit of the standard’s tables' })
    .default(''),
  inspectionLevel: choice(inspectionLevels, 'Choose an inspection level').default('II'),
  countDifferencePercent: decimal('Type a percentage from 0 to 100, such as 2').default('2'),
  afterRejection: choice(afterRejections, 'Choose what happens to a rejected lot').default('return'),
  groupSize: wholeNumber({ from: 0, to: largestLot }, 'Type a whole number of cords, such as 30').default(30),
  ...clauseFields,
  undecidedCounts: choice(undecidedRules, 'Choose what a cord counts as that is gone or spoiled').default(
    'manager-rules',
  ),
}

export const itemForm = z.object(fields).transform(asKept)
export const itemChangeForm = z.object({ ...fields, version: formVersion }).transform(asKept)

type Typed = {
  costTest: number
  costEscape: number
  costReturn: number
  critical: 'no' | 'yes'
  acceptanceQualityLimit: '' | AcceptanceQualityLimit
}

/** The forms call costs by shorter names than the register, which keeps whole cents; a limit that is not named is none. */
function asKept<T extends Typed>(form: T) {
  const { costTest, costEscape, costReturn, critical, acceptanceQualityLimit: named, ...rest } = form
  const acceptanceQualityLimit = named === '' ? null : named
  const costs = { costTestCents: costTest, costEscapeCents: costEscape, costReturnCents: costReturn }
  return { ...rest, ...costs, critical: critical === 'yes', acceptanceQualityLimit }
}

function decimal(sentence: string) {
  return z
    .string({ error: sentence })
    .transform((typed) => plainDecimal(typed) ?? '')
    .refine((plain) => plain !== '', { error: sentence })
}

function amount() {
  const sentence = 'Type an amount such as 1.30, at most ten million'
  return z
    .string({ error: sentence })
    .transform((typed) => centsFrom(typed) ?? -1)
    .refine((read) => read >= 0, { error: sentence })
}
