// The question of the page "What did my sample prove?", read into numbers or answered with what is wrong and where.
import { z } from 'zod'
import { wholeCords } from '../kit/decimal.ts'
import type { Problems } from '../kit/problems.ts'
import { asked, largestLot, ofHundred, type QuestionReading, wholeNumberIn } from './typed.ts'

export type ProofQuestion = {
  lotSize: number
  tested: number
  /** nonconforming cords among the tested */
  found: number
  confidence: number
  /** "fewer than this many in the lot" is what the reader would like to say */
  claim: number
}

/** The fields of the question as text; an absent or empty one stands for what is usual. */
export const proofFields = z.object({
  lot: asked(),
  tested: asked(),
  found: asked(),
  confidence: asked('95'),
  claim: asked('1%'),
})
export type ProofText = z.infer<typeof proofFields>

/** Reads the texts of a question into numbers; a claim given as a share is rounded up to whole cords. */
export function proofQuestionFrom(asked: ProofText): QuestionReading<ProofQuestion> {
  const problems: Problems = {}
  const lotSize = wholeNumberIn(asked.lot, 1, largestLot)
  if (lotSize === undefined) problems.lot = 'Lot size: a whole number of cords from 1 to 1,000,000.'
  const tested = wholeNumberIn(asked.tested, 0, lotSize ?? largestLot)
  if (tested === undefined) problems.tested = 'Cords tested: a whole number from 0 to the size of the lot.'
  const found = wholeNumberIn(asked.found, 0, tested ?? largestLot)
  if (found === undefined) problems.found = 'Cords that did not conform: a whole number from 0 to the number tested.'
  // Below 50 % the bounds on the two sides would cross, and neither says anything.
  const confidence = atLeastHalf(ofHundred(asked.confidence))
  if (confidence === undefined) problems.confidence = 'How sure, of 100: a number from 50 to below 100.'
  const claim = wholeCords(asked.claim, lotSize ?? largestLot)
  if (claim === undefined)
    problems.claim =
      'What you would like to say: a whole number such as 5, or a share such as 1%, at least 1 cord and at most the lot.'

  if (
    lotSize === undefined ||
    tested === undefined ||
    found === undefined ||
    confidence === undefined ||
    claim === undefined
  )
    return { kind: 'problems', problems }
  return { kind: 'question', question: { lotSize, tested, found, confidence, claim } }
}

function atLeastHalf(fraction: number | undefined): number | undefined {
  return fraction !== undefined && fraction >= 0.5 ? fraction : undefined
}
