// A series of which a lot has no verdict: all the states of the switching rules in which it may stand, whatever that lot would have been.
import type { SwitchingState } from './switching.ts'

/**
 * The states that differ in what may still follow from them, each once, in the order in which they first come. Under the rules of
 * 1999, where the lots accepted in a row under normal inspection count for nothing beyond the score.
 *
 * @param states at least one
 * @throws RangeError where there is none
 *
 * @example differingStates([startOfSeries, startOfSeries]).length // 1
 */
export function differingStates(states: readonly SwitchingState[]): SwitchingState[] {
  if (states.length === 0) throw new RangeError('states must be at least one, not none')
  return [...new Map(states.toReversed().map((state) => [futureOf(state), state])).values()].toReversed()
}

/**
 * Whether all these states have the same inspection and remember the same of what would tighten, ease or end it. Their switching
 * scores may differ: they matter on the way to reduced inspection alone, and say nothing before it is reached.
 *
 * @example inspectionIsKnown([startOfSeries]) // true
 */
export function inspectionIsKnown(states: readonly SwitchingState[]): boolean {
  return new Set(states.map((state) => memoryOf(state))).size === 1
}

/**
 * Of several states the one with the strictest inspection: discontinued, then tightened, normal, reduced. Among these the one that was
 * named first.
 *
 * @throws RangeError where there is none
 * @example strictestState([startOfSeries]).inspection // 'normal'
 */
export function strictestState(states: readonly SwitchingState[]): SwitchingState {
  const [strictest] = states.toSorted(
    (one, other) => byStrictness.indexOf(one.inspection) - byStrictness.indexOf(other.inspection),
  )
  if (!strictest) throw new RangeError('states must be at least one, not none')
  return strictest
}

const byStrictness: readonly SwitchingState['inspection'][] = ['discontinued', 'tightened', 'normal', 'reduced']

/** Two states with the same text go the same way with every lot to come. */
function futureOf(state: SwitchingState): string {
  return state.inspection === 'normal' ? `${memoryOf(state)} ${state.score}` : memoryOf(state)
}

/** A lot not accepted under normal inspection matters by how many came after it; lots accepted before it do not. */
function memoryOf(state: SwitchingState): string {
  switch (state.inspection) {
    case 'normal':
      return `normal ${state.latest.includes(false) ? state.latest.length - state.latest.lastIndexOf(false) : 0}`
    case 'tightened':
      return `tightened ${state.acceptedInARow} ${state.notAccepted}`
    case 'reduced':
    case 'discontinued':
      return state.inspection
  }
}
