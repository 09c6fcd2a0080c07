// What cannot be done, in a sentence: one for each code of a refusal.
import { unwantedSentence } from '../../app/kit/characters.ts'
import type { Causes, Problems } from '../../app/kit/problems.ts'
import type { Cause } from '../../app/kit/refusal.ts'
import type { RefusalCode, RefusalFacts } from '../../app/terms/refusals.ts'
import { cordRefusals } from './refusals-cords.ts'
import { fileRefusals } from './refusals-files.ts'
import { lotRefusals } from './refusals-lots.ts'
import { questionRefusals } from './refusals-open.ts'
import { peopleRefusals } from './refusals-people.ts'
import { registerRefusals } from './refusals-register.ts'

type Words = { [C in RefusalCode]: (facts: RefusalFacts[C]) => string }

const words: Words = {
  ...peopleRefusals,
  ...registerRefusals,
  ...lotRefusals,
  ...cordRefusals,
  ...fileRefusals,
  ...questionRefusals,
  'page/missing': () => 'There is nothing at this address',
  'text/unwanted': ({ unwanted }) => unwantedSentence(unwanted),
}

/** The sentence of a refusal or of another cause, without a full stop. */
export function sentenceOf<C extends RefusalCode>({ code, facts }: Cause<C>): string {
  return words[code](facts)
}

/** The same for each field of a form. */
export function sentencesOf(causes: Causes): Problems {
  return Object.fromEntries(Object.entries(causes).map(([field, cause]) => [field, sentenceOf(cause)]))
}
