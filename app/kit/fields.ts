// Fields that many forms share, each with the sentence that stands beside it when it cannot be read.
import { z } from 'zod'
import { unwantedIn, unwantedSentence } from './characters.ts'
import { largestId, lengths } from './limits.ts'

/** The form's own key, made when it was shown (FormKey): sent twice, the form is carried out once. */
export const formKey = z.uuid({ error: 'This form is not whole: load the page again' })

/** The version of the record that the reader saw (Version): changed meanwhile, the form is refused. */
export const formVersion = wholeNumber({ from: 1, to: largestId }, 'This form is not whole: load the page again')

/** Text of one line that must be there, trimmed. `sentence` says what to type; longer text is refused by its length. */
export function text(sentence: string, longest: number) {
  return needed(sentence, longest).superRefine(refuseUnwanted({ lines: false }))
}

/** The same of several lines, for reasons and notes. */
export function longText(sentence: string, longest: number) {
  return needed(sentence, longest).superRefine(refuseUnwanted({ lines: true }))
}

/** Text of one line that may be empty, trimmed. */
export function optionalText(longest: number) {
  return atMost(longest)
    .superRefine(refuseUnwanted({ lines: false }))
    .default('')
}

/** The same of several lines. */
export function optionalLongText(longest: number) {
  return atMost(longest)
    .superRefine(refuseUnwanted({ lines: true }))
    .default('')
}

/** A clause of the contract, which the verb takes whole or not at all. */
export const clauseFields = {
  clauseNumber: optionalText(lengths.clauseNumber),
  clauseText: optionalLongText(lengths.clauseText),
}

/** One field of a question in an address; left out or left empty it is the usual one. */
export function asked(usual = '') {
  const short = z.string().trim().max(40, { error: 'This is longer than any answer to it.' })
  return short.default('').transform((text) => text || usual)
}

/** A password as it is typed, spaces and all. */
export function password(sentence: string) {
  return z
    .string({ error: sentence })
    .min(1, { error: sentence })
    .max(lengths.password, { error: `At most ${lengths.password} characters` })
}

/** A whole number in plain digits, such as 480. Not 1e9, not 4.5, not 1,000 (which is one thousand here and one there). */
export function wholeNumber({ from, to }: { from: number; to: number }, sentence: string) {
  return z
    .string({ error: sentence })
    .trim()
    .regex(/^\d{1,15}$/, { error: sentence })
    .transform(Number)
    .refine((value) => value >= from && value <= to, { error: sentence })
}

/** A day such as 2026-11-27, from 1900 to 2999: PostgreSQL knows no year 0, and the day after 9999-12-31 has no such form. */
export function calendarDay(sentence: string) {
  return z.iso.date({ error: sentence }).refine((day) => day >= '1900' && day < '3000', { error: sentence })
}

/** One of a few words; `sentence` where none is chosen. */
export function choice<const T extends readonly [string, ...string[]]>(words: T, sentence: string) {
  return z.enum(words, { error: sentence })
}

function needed(sentence: string, longest: number) {
  return z
    .string({ error: sentence })
    .trim()
    .min(1, { error: sentence })
    .max(longest, { error: `At most ${longest} characters` })
}

function atMost(longest: number) {
  return z
    .string()
    .trim()
    .max(longest, { error: `At most ${longest} characters` })
}

/** Refuses characters that nobody can see, and says what they do. */
function refuseUnwanted(allowed: { lines: boolean }) {
  return (value: string, context: z.RefinementCtx) => {
    const unwanted = unwantedIn(value, allowed)
    if (unwanted) context.addIssue({ code: 'custom', message: unwantedSentence(unwanted) })
  }
}
