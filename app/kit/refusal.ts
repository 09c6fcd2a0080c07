// The errors that are answers: what a person asked for cannot be done, or not yet, and why.
import type { RefusalCode, RefusalFacts } from '../terms/refusals.ts'

/**
 * invalid: mend the form (422); forbidden: not this person's to do (403); missing: there is no such thing (404);
 * conflict: the record moved on (409); wait: not now (429).
 */
export type RefusalKind = 'invalid' | 'forbidden' | 'missing' | 'conflict' | 'wait'

/** Why something cannot be done, as a face can put it in a sentence (views/words). */
export type Cause<C extends RefusalCode = RefusalCode> = { readonly code: C; readonly facts: RefusalFacts[C] }

export function because<C extends RefusalCode>(code: C, facts: RefusalFacts[C]): Cause<C> {
  return { code, facts }
}

/** A domain verb throws it; nothing was changed. `field` names the form field to mend, where there is one. Its message is the code. */
export class Refusal<C extends RefusalCode = RefusalCode> extends Error implements Cause<C> {
  readonly kind: RefusalKind
  readonly code: C
  readonly facts: RefusalFacts[C]
  readonly field: string | undefined

  constructor(kind: RefusalKind, code: C, facts: RefusalFacts[C], field?: string) {
    super(code)
    this.name = 'Refusal'
    this.kind = kind
    this.code = code
    this.facts = facts
    this.field = field
  }
}

/** The same may be asked again after so many seconds. */
export class Wait<C extends RefusalCode = RefusalCode> extends Refusal<C> {
  readonly seconds: number

  constructor(code: C, facts: RefusalFacts[C], seconds: number, field?: string) {
    super('wait', code, facts, field)
    this.seconds = seconds
  }
}
