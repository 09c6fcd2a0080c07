// Closed sets of words for what is bought.

/** How a reading inside the tester's accuracy counts: strict against the cord, lenient for it. */
export const decisionRules = ['strict', 'lenient'] as const
export type DecisionRule = (typeof decisionRules)[number]
