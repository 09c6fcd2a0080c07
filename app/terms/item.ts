// Closed sets of words for what is bought.
import type { AfterRejection } from '../statistics/economics/costs.ts'

/** How a reading inside the tester's accuracy counts: strict against the cord, lenient for it. */
export const decisionRules = ['strict', 'lenient'] as const
export type DecisionRule = (typeof decisionRules)[number]

/** A drawn cord that is gone or spoiled here: the manager rules on each, or it counts as not conforming for good. */
export const undecidedRules = ['manager-rules', 'nonconforming'] as const
export type UndecidedRule = (typeof undecidedRules)[number]

/** What becomes of a lot that the plan rejects: it goes back as it is, or every cord left is tested. */
export const afterRejections = ['return', 'screen'] as const satisfies readonly AfterRejection[]
