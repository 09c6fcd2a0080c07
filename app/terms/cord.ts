// Closed sets of words for a drawn cord: what it was drawn for, what was found, and how it was judged.

/** sample: drawn by the plan; stand-in: the next position of the same draw, for a cord that could not be had; rest: all the others, when a lot is screened. */
export const purposes = ['sample', 'stand-in', 'rest'] as const
export type CordPurpose = (typeof purposes)[number]

/**
 * damaged: there, but too damaged to test, which its visual inspection decides; gone, spoiled: it was there and is gone or spoiled here,
 * which decides nothing about it; no-cord: nothing lies in its place, so that the lot was counted wrong. missing and untestable were
 * entered up to version 0.3 and are read still.
 */
export const resultKinds = ['tested', 'missing', 'untestable', 'damaged', 'gone', 'spoiled', 'no-cord'] as const
export type ResultKind = (typeof resultKinds)[number]

/** What can be entered of a cord without its readings; a recount is an act of its own. */
export const untestedKinds = ['damaged', 'gone', 'spoiled'] as const satisfies readonly ResultKind[]

/** Kinds that say nothing of the cord: the manager rules, or the item says that they count. */
export const undecidedKinds = ['gone', 'spoiled'] as const satisfies readonly ResultKind[]

/** What becomes of an undecided cord: the next reserve position of the draw takes its place, or it counts as not conforming. */
export const cordRulings = ['reserve', 'nonconforming'] as const
export type CordRuling = (typeof cordRulings)[number]

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
