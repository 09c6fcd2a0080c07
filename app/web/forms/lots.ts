// What the pages of a lot take before it is drawn, and its withdrawal.

import { z } from 'zod'
import {
  choice,
  clauseFields,
  formKey,
  formVersion,
  longText,
  optionalLongText,
  text,
  wholeNumber,
} from '../../kit/fields.ts'
import { largestId, largestLot, lengths } from '../../kit/limits.ts'
import type { PlanRule } from '../../lots/rules/plan-rule.ts'
import { stagesField } from '../../lots/rules/stages.ts'
import { type FormerKind, formerKinds } from '../../terms/lot.ts'

const oneToMillion = { from: 1, to: largestLot }

const packing = {
  size: wholeNumber(oneToMillion, 'A whole number of cords from 1 to 1,000,000, in plain digits'),
  cartons: wholeNumber(oneToMillion, 'A whole number of cartons from 1 to 1,000,000'),
  cordsInCarton: wholeNumber(oneToMillion, 'A whole number of cords from 1 to 1,000,000'),
}

const announced = {
  supplierId: wholeNumber({ from: 1, to: largestId }, 'Choose a supplier'),
  itemId: wholeNumber({ from: 1, to: largestId }, 'Choose an item'),
  ...packing,
  productionMark: text('Give the production mark', lengths.name),
  purchaseOrder: text('Give the purchase-order reference', lengths.name),
  ...clauseFields,
  isolated: choice(['no', 'yes'], 'Say whether the lot stands alone')
    .default('no')
    .transform((answer) => answer === 'yes'),
}

const former = {
  before: choice(['no', ...formerKinds], 'Say whether the lot was here before').default('no'),
  formerLot: z.string().trim().max(20, { error: 'Type the number of the lot that went back' }).default(''),
  declaredSorting: optionalLongText(lengths.reason),
}

/** As a link on the page of a lot that went back has it. */
export const formerQuery = z.object({
  before: choice(formerKinds, 'Say whether the lot was here before').default('resubmission'),
  formerLot: wholeNumber({ from: 1, to: largestId }, 'Type the number of the lot that went back').optional(),
})

type TypedFormer = { before: 'no' | FormerKind; formerLot: string; declaredSorting: string }

/** What is typed of a lot before is looked at only where there was one. */
function withFormer<T extends TypedFormer>(form: T, read: z.RefinementCtx) {
  const { before, formerLot, declaredSorting: sorting, ...rest } = form
  if (before === 'no') return { ...rest, former: undefined }
  const lotId = /^\d{1,9}$/.test(formerLot) ? Number(formerLot) : 0
  if (lotId === 0)
    read.addIssue({ code: 'custom', path: ['formerLot'], message: 'Type the number of the lot that went back' })
  return { ...rest, former: before === 'replacement' ? { kind: before, lotId } : { kind: before, lotId, sorting } }
}

/** The rules that need no number of their own can be chosen at once; the others on the lot's page of a plan. */
const ruleAtOnce = choice(['later', 'zero-acceptance', 'every-cord'], 'Say how the lot is to be tested')
  .default('later')
  .transform((kind): PlanRule | undefined => (kind === 'later' ? undefined : { kind }))

export const announcementForm = z
  .object({ key: formKey, ...announced, ...former, rule: ruleAtOnce })
  .transform(withFormer)
export const lotCorrectionForm = z.object({ version: formVersion, ...announced, ...former }).transform(withFormer)
export const receiptForm = z.object({
  version: formVersion,
  ...packing,
  note: optionalLongText(lengths.reason),
  /** a box that is not ticked is not sent */
  oneMark: choice(['yes'], 'Tick the box, or leave it')
    .optional()
    .transform((answer) => answer === 'yes'),
  shown: text('This form is not whole: load the page again', 60).optional(),
})
export const withdrawalForm = z.object({
  version: formVersion,
  reason: longText('Say why the lot is withdrawn', lengths.reason),
})

/** Why a weaker plan: in words, by the contract's clause, or both; a box that is not ticked is not sent. */
const planReason = {
  reason: optionalLongText(lengths.reason),
  byClause: choice(['yes'], 'Tick the box, or leave it')
    .optional()
    .transform((answer) => answer === 'yes'),
}

export const planForm = z.discriminatedUnion(
  'kind',
  [
    z.object({
      version: formVersion,
      kind: z.enum(['zero-acceptance', 'single', 'percentage', 'contract', 'every-cord']),
      sampleSize: wholeNumber(oneToMillion, 'A whole number of cords from 1 to the size of the lot'),
      acceptanceNumber: wholeNumber({ from: 0, to: largestLot }, 'A whole number of cords from 0'),
      ...planReason,
    }),
    z.object({
      version: formVersion,
      kind: z.enum(['double', 'groups', 'standard']),
      stages: stagesField,
      ...planReason,
    }),
  ],
  { error: 'Choose a plan' },
)

/** A rule of an announced lot, as the rows of its page of a plan send it. */
export const ruleForm = z
  .discriminatedUnion(
    'kind',
    [
      z.object({ version: formVersion, kind: z.literal('none') }),
      z.object({ version: formVersion, kind: z.enum(['zero-acceptance', 'every-cord']), ...planReason }),
      z.object({
        version: formVersion,
        kind: z.literal('single'),
        good: wholeNumber({ from: 0, to: largestLot }, 'Type a whole number of cords from 0'),
        goodRisk: z.coerce.number({ error: 'This form is not whole: load the page again' }).gt(0).lt(1),
        ...planReason,
      }),
      z.object({
        version: formVersion,
        kind: z.literal('contract'),
        sampleSize: wholeNumber(oneToMillion, 'A whole number of cords from 1 to the size of the lot'),
        acceptanceNumber: wholeNumber({ from: 0, to: largestLot }, 'A whole number of cords from 0'),
        ...planReason,
      }),
    ],
    { error: 'Choose a rule' },
  )
  .transform(({ version, ...chosen }) => ({ version, rule: chosen.kind === 'none' ? undefined : chosen }))
