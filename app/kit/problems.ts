// What is wrong with a form, and what was typed in it, by field.

/** Field name to the sentence that says what is wrong with it. */
export type Problems = Record<string, string>
/** Field name to what the reader typed, to be shown again. */
export type Typed = Record<string, string>
