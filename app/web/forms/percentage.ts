// The two numbers of the percentage question, as pages read them from an address.

import { z } from 'zod'
import { plainDecimal } from '../../kit/decimal.ts'
import { wholeNumber } from '../../kit/fields.ts'
import { largestLot } from '../../kit/limits.ts'

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
