// The fields of the percentage question, as its page reads them from an address.

import { z } from 'zod'
import { plainDecimal } from '../../kit/decimal.ts'
import { wholeNumber } from '../../kit/fields.ts'
import { largestId, largestLot } from '../../kit/limits.ts'

/** The percentage question over everything, a supplier's lots or an item's, and the sample that is drawn of one lot. */
export const percentageReportForm = z.object({
  percent: z
    .string()
    .default('10')
    .transform((typed, read) => {
      const digits = plainDecimal(typed)
      if (digits === undefined || Number(digits) <= 0 || Number(digits) > 100)
        read.addIssue({ code: 'custom', message: 'A percentage is above 0 and at most 100' })
      return digits ?? ''
    }),
  allowed: wholeNumber(
    { from: 0, to: largestLot },
    'Type how many nonconforming cords are allowed: a whole number from 0',
  ).default(0),
  supplier: chosen('Choose a supplier of the list'),
  item: chosen('Choose an item of the list'),
  lot: wholeNumber({ from: 1, to: largestId }, 'There is no such lot').optional(),
  draw: wholeNumber({ from: 1, to: 1_000_000_000 }, 'There is no such draw').default(1),
})

function chosen(sentence: string) {
  return z
    .union([z.literal('').transform(() => undefined), wholeNumber({ from: 1, to: largestId }, sentence)], {
      error: sentence,
    })
    .optional()
}
