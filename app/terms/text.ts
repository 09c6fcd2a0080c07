// Closed sets of words for what is typed.

/** What an unwanted character does, for the sentence that refuses it. */
export type Unwanted = 'zero' | 'control' | 'invisible' | 'direction' | 'broken'
