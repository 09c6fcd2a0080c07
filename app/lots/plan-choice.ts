// The ways of testing a received lot, side by side, for the officer's choice.
import type { z } from 'zod'
import type { Comparison } from '../advisor/compare.ts'
import { type Question, questionFields, questionFrom } from '../advisor/question.ts'
import { compareTask, takesLong } from '../advisor/tasks.ts'
import type { QuestionReading } from '../advisor/typed.ts'
import { type Run, runHere } from '../kit/task.ts'
import type { LotRecord } from './record/lot.ts'

/** What the officer may ask besides: a good lot that should rarely be sent back, a percentage, a plan of the contract. */
export const optionsFields = questionFields.pick({ good: true, goodrisk: true, percent: true, own: true })
export type OptionsText = z.infer<typeof optionsFields>

export type Options =
  | { kind: 'options'; question: Question; comparison: Comparison }
  | Extract<QuestionReading<Question>, { kind: 'refused' }>

/** Compares the ways for the lot's size and what its item demands, exactly as the advisor does. */
export async function optionsFor(
  run: Run,
  { size, terms }: Pick<LotRecord, 'size' | 'terms'>,
  asked: OptionsText,
): Promise<Options> {
  const reading = questionFrom({
    ...asked,
    lot: String(size),
    limit: String(terms.tooMany),
    confidence: terms.catchOf100,
  })
  if (reading.kind === 'refused') return reading
  const { question } = reading
  const { comparison } = await (takesLong(question) ? run : runHere)(compareTask, question)
  return { kind: 'options', question, comparison }
}
