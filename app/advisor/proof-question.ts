// The question of the page "What did my sample prove?", read into numbers or answered with what is wrong and where.

import { z } from 'zod'
import { wholeCords } from '../kit/decimal.ts'
import { asked } from '../kit/fields.ts'
import { largestLot } from '../kit/limits.ts'
import type { Causes } from '../kit/problems.ts'
import { because } from '../kit/refusal.ts'
import { type Taken, takenFrom } from './taken.ts'
import { ofHundred, type QuestionReading, wholeNumberIn } from './typed.ts'

export type ProofQuestion = {
  lotSize: number
  tested: number
  /** nonconforming cords among the tested */
  found: number
  confidence: number
  /** "fewer than this many in the lot" is what the reader would like to say */
  claim: number
  taken: Taken
}

/** What stands in the form before anybody asked. */
export const exampleProof = { lot: '480', tested: '48', found: '0' }

/** The fields of the question as text; an absent or empty one stands for what is usual. */
export const proofFields = z.object({
  lot: asked(),
  tested: asked(),
  found: asked(),
  confidence: asked('95'),
  claim: asked('1%'),
  planned: asked(),
  rejection: asked(),
  first: asked(),
  accept: asked(),
  firstreject: asked(),
})
export type ProofText = z.infer<typeof proofFields>

/** Reads the texts of a question into numbers; a claim given as a share is rounded up to whole cords. */
export function proofQuestionFrom(asked: ProofText): QuestionReading<ProofQuestion> {
  const causes: Causes = {}
  const counts = countsFrom(asked, causes)
  // Below 50 % the bounds on the two sides would cross, and neither says anything.
  const confidence = atLeastHalf(ofHundred(asked.confidence))
  if (confidence === undefined) causes.confidence = because('proof/confidence', {})
  const claim = wholeCords(asked.claim, counts?.lotSize ?? largestLot)
  if (claim === undefined) causes.claim = because('proof/claim', {})
  const { planned, rejection, first, accept, firstreject } = asked
  const taken = counts && takenFrom({ planned, rejection, first, accept, firstreject }, counts, causes)
  if (!counts || confidence === undefined || claim === undefined || !taken) return { kind: 'refused', causes }
  return { kind: 'question', question: { ...counts, confidence, claim, taken } }
}

function countsFrom(asked: ProofText, causes: Causes): { lotSize: number; tested: number; found: number } | undefined {
  const lotSize = wholeNumberIn(asked.lot, 1, largestLot)
  if (lotSize === undefined) causes.lot = because('question/lot-size', {})
  const tested = wholeNumberIn(asked.tested, 0, lotSize ?? largestLot)
  if (tested === undefined) causes.tested = because('proof/tested', {})
  const found = wholeNumberIn(asked.found, 0, tested ?? largestLot)
  if (found === undefined) causes.found = because('proof/found', {})
  return lotSize === undefined || tested === undefined || found === undefined ? undefined : { lotSize, tested, found }
}

function atLeastHalf(fraction: number | undefined): number | undefined {
  return fraction !== undefined && fraction >= 0.5 ? fraction : undefined
}
