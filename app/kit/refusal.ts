// The errors that are answers: what a person asked for cannot be done, or not yet, and why.
import type { RefusalCode, RefusalFacts } from '../terms/refusals.ts'

/**
 * invalid: mend the form (422); forbidden: not this person's to do (403); missing: there is no such thing (404);
 * conflict: the record moved on (409); wait: not now (429).
 */
export type RefusalKind = 'invalid' | 'forbidden' | 'missing' | 'conflict' | 'wait'

/**
 * A domain verb throws it; nothing was changed. `code` and `facts` are what a face makes its sentence of; `field` names
 * the form field to mend, where there is one.
 */
export class Refusal<C extends RefusalCode = RefusalCode> extends Error {
  readonly kind: RefusalKind
  readonly told: { code: C; facts: RefusalFacts[C] } | undefined
  readonly field: string | undefined

  constructor(kind: RefusalKind, sentence: string, field?: string)
  constructor(kind: RefusalKind, code: C, facts: RefusalFacts[C], field?: string)
  constructor(kind: RefusalKind, code: C, facts?: RefusalFacts[C] | string, field?: string) {
    super(code)
    this.name = 'Refusal'
    this.kind = kind
    this.told = typeof facts === 'object' ? { code, facts } : undefined
    this.field = typeof facts === 'string' ? facts : field
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
