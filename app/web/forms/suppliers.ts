// The fields of the pages of suppliers, each with the sentence that stands beside it when it cannot be read.

import { z } from 'zod'
import { choice, formKey, longText, text, wholeNumber } from '../../kit/fields.ts'
import { largestId, lengths } from '../../kit/limits.ts'

const oneItem = wholeNumber({ from: 1, to: largestId }, 'There is no such item')

export const registerForm = z.object({ key: formKey, name: text('Type the supplier’s name', lengths.name) })

export const comparisonForm = z.object({ item: z.union([z.literal(['all', '']), oneItem]).default('all') })

export const noteForm = z.object({
  key: formKey,
  itemId: oneItem,
  kind: choice(['supplier-acted', 'reduced-wanted', 'reduced-ended'], 'This form is not whole: load the page again'),
  reason: longText('Give the reason', lengths.reason),
})
