// The errors that are answers: what a person asked for cannot be done, or not yet, and why.

/**
 * invalid: mend the form (422); forbidden: not this person's to do (403); missing: there is no such thing (404);
 * conflict: the record moved on (409); wait: not now (429).
 */
export type RefusalKind = 'invalid' | 'forbidden' | 'missing' | 'conflict' | 'wait'

/** A domain verb throws it; nothing was changed. `field` names the form field to mend, where there is one. */
export class Refusal extends Error {
  readonly kind: RefusalKind
  readonly field: string | undefined

  constructor(kind: RefusalKind, sentence: string, field?: string) {
    super(sentence)
    this.name = 'Refusal'
    this.kind = kind
    this.field = field
  }
}

/** The same may be asked again after so many seconds. */
export class Wait extends Refusal {
  readonly seconds: number

  constructor(sentence: string, seconds: number, field?: string) {
    super('wait', sentence, field)
    this.seconds = seconds
  }
}
