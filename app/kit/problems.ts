// What is wrong with a form, and what was typed in it, by field.

import type { Cause } from './refusal.ts'

/** Field name to why it cannot stay, before a face has said it. */
export type Causes = Record<string, Cause>
/** Field name to the sentence that says what is wrong with it. */
export type Problems = Record<string, string>
/** Field name to what the reader typed, to be shown again. */
export type Typed = Record<string, string>
