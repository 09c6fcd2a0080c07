// What the bench, the correction of an entry, a recount and a ruling send.

import { z } from 'zod'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { formKey, longText, optionalText, wholeNumber } from '../../kit/fields.ts'
import { largestLot, lengths } from '../../kit/limits.ts'
import { marginFrom, type Side, sides } from '../../lots/rules/margin.ts'
import { cordRulings, inspections, untestedKinds } from '../../terms/cord.ts'

const unwhole = 'This form is not whole: load the page again'
const matter = { error: 'Choose what is the matter' }
const mark = optionalText(lengths.mark).transform((typed) => (typed === '' ? undefined : typed))
const inspection = z.enum(inspections).optional()

const testedFields = {
  kind: z.literal('tested'),
  crosstalkSide: z.enum(sides).optional(),
  crosstalkMargin: z.string().default(''),
  returnLossSide: z.enum(sides).optional(),
  returnLossMargin: z.string().default(''),
  wireMap: inspection,
  visual: inspection,
  carton: mark,
  spool: mark,
  testerSerial: mark,
}

const untestedFields = { kind: z.enum(untestedKinds), note: longText('Say what happened', lengths.note) }

const benchFields = { key: formKey, position: wholeNumber({ from: 1, to: largestLot }, unwhole) }
const correctionFields = {
  key: formKey,
  entryNumber: wholeNumber({ from: 1, to: largestLot }, unwhole),
  reason: longText('Say why the entry is corrected', lengths.note),
}

export const benchForm = z.discriminatedUnion(
  'kind',
  [z.object({ ...benchFields, ...testedFields }).transform(reading), z.object({ ...benchFields, ...untestedFields })],
  matter,
)

export const correctionForm = z.discriminatedUnion(
  'kind',
  [
    z.object({ ...correctionFields, ...testedFields }).transform(reading),
    z.object({ ...correctionFields, ...untestedFields }),
  ],
  matter,
)

export const recountForm = z.object({
  key: formKey,
  size: wholeNumber({ from: 1, to: largestLot }, 'Give the number of cords that the lot has after all'),
  reason: longText('Say how it was counted again', lengths.note),
})

export const rulingForm = z.object({
  key: formKey,
  entryNumber: wholeNumber({ from: 1, to: largestLot }, unwhole),
  ruling: z.enum(cordRulings, { error: 'Choose what becomes of the cord' }),
  reason: longText('Say why you rule so', lengths.note),
})

type Typed = {
  crosstalkSide?: Side | undefined
  crosstalkMargin: string
  returnLossSide?: Side | undefined
  returnLossMargin: string
  wireMap?: 'in-order' | 'at-fault' | undefined
  visual?: 'in-order' | 'at-fault' | undefined
}

/** Joins side and number of each margin and asks for what is not said, all in one go. */
function reading<T extends Typed>(form: T, context: z.RefinementCtx) {
  const { crosstalkSide, crosstalkMargin, returnLossSide, returnLossMargin, wireMap, visual, ...rest } = form
  const problem = (field: string, message: string) => {
    context.addIssue({ code: 'custom', path: [field], message })
    return z.NEVER
  }
  const margin = (field: string, side: Side | undefined, typed: string) => {
    const entry = marginFrom({ side, typed })
    if ('problem' in entry) return problem(field, sentenceOf(entry.problem))
    return 'margin' in entry ? entry.margin : undefined
  }
  return {
    ...rest,
    crosstalkMargin: margin('crosstalkMargin', crosstalkSide, crosstalkMargin),
    returnLossMargin: margin('returnLossMargin', returnLossSide, returnLossMargin),
    wireMap: wireMap ?? problem('wireMap', 'Say whether the wire map is in order'),
    visual: visual ?? problem('visual', 'Say whether the visual inspection is in order'),
  }
}
