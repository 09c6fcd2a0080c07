// The switching rules between normal, tightened and reduced inspection, as a pure state machine over a supplier's lots.
import { count } from './check.ts'

/**
 * Which rules bind: those of MIL-STD-105E (1989), 4.7 and 4.8 (read), or of ISO 2859-1:1999, 9.3 and 9.4, with the
 * switching score (recalled; pages say so). They differ in the way to reduced inspection alone.
 */
export type Edition = '105E' | '1999'

/** What the rules ask of a decided lot. */
export type InspectedLot = {
  /** First inspection of the lot. A lot submitted again counts for nothing here. */
  readonly original: boolean
  readonly accepted: boolean
  /** Reduced inspection: more were found than leave the severity as it is (see `staysUpTo` of the plan). */
  readonly inGap: boolean
  /** What an accepted lot adds to the switching score of the 1999 rules, from scoreOf…; 0 sets the score back. */
  readonly score: 0 | 2 | 3
  /** Production runs at a steady rate. */
  readonly steady: boolean
  /** The responsible authority wants reduced inspection. */
  readonly reducedWanted: boolean
  /** 105E: all nonconforming units in the samples of the last ten lots or more are within the limit number of its Table VIII. */
  readonly withinLimitNumber: boolean
}

/** Why the severity is what it is, in the rules' own cases; the pages word them. */
export type Reason =
  | 'start'
  | 'two of five not accepted'
  | 'five in a row accepted'
  | 'ten in a row accepted'
  | 'switching score of thirty'
  | 'not accepted under reduced inspection'
  | 'between the numbers under reduced inspection'
  | 'production not steady'
  | 'five not accepted under tightened inspection'
  | 'supplier has acted'

/** Where a series of lots stands, with just as much memory as the rules need. */
export type SwitchingState =
  | {
      readonly inspection: 'normal'
      readonly reason: Reason
      /** The latest lots on this spell of normal inspection, oldest first, four at most: true where accepted. */
      readonly latest: readonly boolean[]
      /** Lots accepted in a row on this spell, ten at most. */
      readonly acceptedInARow: number
      /** Switching score, thirty at most. */
      readonly score: number
    }
  | {
      readonly inspection: 'tightened'
      readonly reason: Reason
      /** Lots accepted in a row on this spell, below five. */
      readonly acceptedInARow: number
      /** Lots not accepted on this spell, below five. */
      readonly notAccepted: number
    }
  | { readonly inspection: 'reduced'; readonly reason: Reason }
  | { readonly inspection: 'discontinued'; readonly reason: Reason }

/** A series begins under normal inspection, unless the responsible authority says otherwise. */
export const startOfSeries: SwitchingState = onNormal('start')

/**
 * The state after a lot. A discontinued series stays so until the supplier has acted (`resumed`); a lot inspected
 * meanwhile changes nothing, nor does one submitted again.
 *
 * Normal to tightened: two of five or fewer consecutive lots not accepted, counted on this spell of normal inspection.
 * Tightened to normal: five consecutive lots accepted. Discontinued: five lots not accepted on this spell of tightened
 * inspection. Normal to reduced: steady production, wanted, and by 105E ten lots in a row accepted within the limit
 * number, by 1999 a switching score of thirty. Reduced to normal: a lot not accepted or between the numbers, or production
 * not steady.
 *
 * Source: MIL-STD-105E (1989), 4.7.1 to 4.7.4 and 4.8 (read); ISO 2859-1:1999, 9.3 and 9.4 (from memory).
 */
export function afterLot(state: SwitchingState, lot: InspectedLot, edition: Edition): SwitchingState {
  if (!lot.original) return state
  switch (state.inspection) {
    case 'normal':
      return afterNormal(state, lot, edition)
    case 'tightened':
      return afterTightened(state, lot)
    case 'reduced':
      return afterReduced(state, lot)
    case 'discontinued':
      return state
  }
}

/** A discontinued series begins again under tightened inspection, once the supplier has acted and the authority agrees. */
export function resumed(state: SwitchingState): SwitchingState {
  return state.inspection === 'discontinued' ? onTightened('supplier has acted') : state
}

/** Normal inspection again as soon as production is not steady or reduced inspection is not wanted any more (4.7.4). */
export function steadyEnded(state: SwitchingState): SwitchingState {
  return state.inspection === 'reduced' ? onNormal('production not steady') : state
}

/**
 * Switching score of a lot under a single plan for normal inspection: with an acceptance number of 2 or more, 3 where
 * the lot would have been accepted one step tighter; with 0 or 1, 2 where it was accepted. 0 sets the score back.
 *
 * @param tighterAcceptanceNumber acceptanceNumberOneStepTighter; not read where the acceptance number is below 2
 *
 * Source: ISO 2859-1:1999, 9.3.3.2 (from memory).
 */
export function scoreOfSingle(single: {
  readonly found: number
  readonly acceptanceNumber: number
  readonly tighterAcceptanceNumber: number
}): InspectedLot['score'] {
  const { found, acceptanceNumber, tighterAcceptanceNumber } = single
  count('found', found)
  count('acceptanceNumber', acceptanceNumber)
  if (acceptanceNumber < 2) return found <= acceptanceNumber ? 2 : 0
  count('tighterAcceptanceNumber', tighterAcceptanceNumber, 0, acceptanceNumber)
  return found <= tighterAcceptanceNumber ? 3 : 0
}

/** Switching score of a lot under a double plan: 3 where the first sample accepts, else 0 (ISO 2859-1:1999, from memory). */
export function scoreOfDouble(double: { readonly foundFirst: number; readonly firstAcceptanceNumber: number }): 0 | 3 {
  count('foundFirst', double.foundFirst)
  return double.foundFirst <= double.firstAcceptanceNumber ? 3 : 0
}

type Normal = Extract<SwitchingState, { inspection: 'normal' }>
type Tightened = Extract<SwitchingState, { inspection: 'tightened' }>
type Reduced = Extract<SwitchingState, { inspection: 'reduced' }>

const needed = { score: 30, inARow: 10, backInARow: 5, mostNotAccepted: 5 } as const

function afterNormal(state: Normal, lot: InspectedLot, edition: Edition): SwitchingState {
  if (!lot.accepted && state.latest.includes(false)) return onTightened('two of five not accepted')
  const acceptedInARow = lot.accepted ? Math.min(needed.inARow, state.acceptedInARow + 1) : 0
  const score = lot.accepted && lot.score > 0 ? Math.min(needed.score, state.score + lot.score) : 0
  const earned = edition === '105E' ? acceptedInARow === needed.inARow && lot.withinLimitNumber : score === needed.score
  if (earned && lot.steady && lot.reducedWanted)
    return {
      inspection: 'reduced',
      reason: edition === '105E' ? 'ten in a row accepted' : 'switching score of thirty',
    }
  return { ...state, latest: [...state.latest, lot.accepted].slice(-4), acceptedInARow, score }
}

function afterTightened(state: Tightened, lot: InspectedLot): SwitchingState {
  if (lot.accepted) {
    const acceptedInARow = state.acceptedInARow + 1
    return acceptedInARow === needed.backInARow ? onNormal('five in a row accepted') : { ...state, acceptedInARow }
  }
  const notAccepted = state.notAccepted + 1
  if (notAccepted === needed.mostNotAccepted)
    return { inspection: 'discontinued', reason: 'five not accepted under tightened inspection' }
  return { ...state, acceptedInARow: 0, notAccepted }
}

function afterReduced(state: Reduced, lot: InspectedLot): SwitchingState {
  if (!lot.accepted) return onNormal('not accepted under reduced inspection')
  if (lot.inGap) return onNormal('between the numbers under reduced inspection')
  return lot.steady ? state : onNormal('production not steady')
}

function onNormal(reason: Reason): SwitchingState {
  return { inspection: 'normal', reason, latest: [], acceptedInARow: 0, score: 0 }
}

function onTightened(reason: Reason): SwitchingState {
  return { inspection: 'tightened', reason, acceptedInARow: 0, notAccepted: 0 }
}
