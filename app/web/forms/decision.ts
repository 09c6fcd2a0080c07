// What the decision and the closing decision send.

import { z } from 'zod'
import { choice, formVersion, optionalLongText, text, wholeNumber } from '../../kit/fields.ts'
import { largestLot, lengths } from '../../kit/limits.ts'

const signature = {
  version: formVersion,
  reason: optionalLongText(lengths.reason),
  password: z.string({ error: 'Type your password' }).min(1, { error: 'Type your password' }).max(lengths.password),
}

const concession = {
  riskBearer: text('Say who bears the risk and agreed', 100),
  riskFirm: text('Say of which firm that person is', 100),
  riskDocument: text('Name the document in which they agree', 90),
  use: text('Say for which use', lengths.concession),
  cords: wholeNumber({ from: 1, to: largestLot }, 'Say for how many cords, 1 or more'),
  until: text('Say until when', 10),
}

/** A concession is sent with its own six fields; with any other choice they are not looked at. */
export const decisionForm = z.discriminatedUnion(
  'outcome',
  [
    z.object({ outcome: z.enum(['accepted', 'screened', 'returned']), ...signature }),
    z
      .object({ outcome: z.literal('conceded'), ...signature, ...concession })
      .transform(({ riskBearer, riskFirm, riskDocument, use, cords, until, ...form }) => ({
        ...form,
        concession: { riskBearer: `${riskBearer}, ${riskFirm}; ${riskDocument}`, use, cords, until },
      })),
  ],
  { error: 'Choose what is to become of the lot' },
)

export const closingForm = z.object({
  outcome: choice(['sorted', 'returned'], 'Choose what is to become of the lot'),
  ...signature,
})
