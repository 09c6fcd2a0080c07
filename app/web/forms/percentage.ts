// The fields of the percentage questions, as pages read them from an address.

import { z } from 'zod'
import { plainDecimal } from '../../kit/decimal.ts'
import { wholeNumber } from '../../kit/fields.ts'
import { largestId, largestLot } from '../../kit/limits.ts'

export const percentageFields = {
  percent: z
    .string()
    .default('10')
    .transform((typed, read) => {
      const digits = plainDecimal(typed)
      if (digits === undefined || Number(digits) <= 0 || Number(digits) > 100)
        read.addIssue({ code: 'custom', message: 'A percentage is above 0 and at most 100' })
      return digits ?? ''
    }),
  allowed: wholeNumber({ from: 0, to: largestLot }, 'Type how many may fail: a whole number from 0').default(0),
}

/** The percentage question of one supplier. */
export const drawnPercentageForm = z.object({
  ...percentageFields,
  lot: wholeNumber({ from: 1, to: largestId }, 'There is no such lot').optional(),
  draw: wholeNumber({ from: 1, to: 1_000_000_000 }, 'There is no such draw').default(1),
})

/** The percentage question over everything. */
export const percentageReportForm = z.object({
  ...percentageFields,
  supplier: chosen('Choose a supplier of the list'),
  item: chosen('Choose an item of the list'),
})

function chosen(sentence: string) {
  return z
    .union([z.literal('').transform(() => undefined), wholeNumber({ from: 1, to: largestId }, sentence)], {
      error: sentence,
    })
    .optional()
}
