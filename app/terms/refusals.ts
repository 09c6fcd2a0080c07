// What a refusal is of: a code, and the facts that its sentence is made of. views/words says each one.
import type { CordRefusals } from './refusals-cords.ts'
import type { LotRefusals } from './refusals-lots.ts'
import type { PeopleRefusals } from './refusals-people.ts'
import type { RegisterRefusals } from './refusals-register.ts'

/** What an unwanted character does, for the sentence that refuses it. */
export type Unwanted = 'zero' | 'control' | 'invisible' | 'direction' | 'broken'

type TextRefusals = { 'text/unwanted': { unwanted: Unwanted }; 'page/missing': Record<never, never> }

export type RefusalFacts = TextRefusals & PeopleRefusals & RegisterRefusals & LotRefusals & CordRefusals
export type RefusalCode = keyof RefusalFacts
