// What a refusal is of: a code, and the facts that its sentence is made of. views/words says each one.
import type { CordRefusals } from './refusals-cords.ts'
import type { FileRefusals } from './refusals-files.ts'
import type { LotRefusals } from './refusals-lots.ts'
import type { QuestionRefusals } from './refusals-open.ts'
import type { PeopleRefusals } from './refusals-people.ts'
import type { RegisterRefusals } from './refusals-register.ts'
import type { Unwanted } from './text.ts'

type TextRefusals = { 'text/unwanted': { unwanted: Unwanted }; 'page/missing': Record<never, never> }

export type RefusalFacts = TextRefusals &
  PeopleRefusals &
  RegisterRefusals &
  LotRefusals &
  CordRefusals &
  FileRefusals &
  QuestionRefusals
export type RefusalCode = keyof RefusalFacts
