// Closed sets of words for a drawn cord: what it was drawn for, what was found, and how it was judged.

/** sample: drawn by the plan; stand-in: the next position of the same draw, for a cord that could not be tested; rest: all the others, when a lot is screened. */
export const purposes = ['sample', 'stand-in', 'rest'] as const
export type CordPurpose = (typeof purposes)[number]

/** missing: not in its place; untestable: there, but it cannot be tested. */
export const resultKinds = ['tested', 'missing', 'untestable'] as const

/** Wire map and visual inspection. */
export const inspections = ['in-order', 'at-fault'] as const
export type InspectionResult = (typeof inspections)[number]

/** What a tester measures; its margin is above the cord limit or short of it. */
export type Parameter = 'crosstalk' | 'return-loss'

/** What is looked at and not measured. */
export type LookedAt = 'wire-map' | 'visual'

/** Of a tested cord. */
export const judgedStates = ['conforms', 'marginal', 'does-not-conform'] as const
export type CordState = (typeof judgedStates)[number]

export const resultStates = [...judgedStates, 'not-tested'] as const
export type ResultState = (typeof resultStates)[number]
