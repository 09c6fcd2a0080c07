// What may be done with a lot in each state, by whom, and where it leads: written down once. The database's triggers say the same, and a test compares.

import type { LotState } from '../../terms/lot.ts'
import type { Role } from '../../terms/person.ts'

export type LotAct =
  | 'correct'
  | 'receive'
  | 'withdraw'
  | 'plan'
  | 'draw'
  | 'record'
  | 'amend'
  | 'stand-in'
  | 'accept'
  | 'concede'
  | 'screen'
  | 'return'
  | 'sort'

/** `to`: the states in which the lot may be afterwards. */
export type Step = { by: Role; to: readonly LotState[] }

/** A lot is announced by an officer; everything that follows stands here. A state without an act is the end. */
export const lifecycle: Record<LotState, Partial<Record<LotAct, Step>>> = {
  announced: {
    correct: { by: 'officer', to: ['announced'] },
    receive: { by: 'inspector', to: ['received'] },
    withdraw: { by: 'manager', to: ['withdrawn'] },
  },
  received: {
    correct: { by: 'officer', to: ['received'] },
    receive: { by: 'inspector', to: ['received'] },
    plan: { by: 'officer', to: ['planned'] },
    withdraw: { by: 'manager', to: ['withdrawn'] },
  },
  planned: {
    draw: { by: 'inspector', to: ['drawn'] },
    withdraw: { by: 'manager', to: ['withdrawn'] },
  },
  drawn: {
    record: { by: 'inspector', to: ['drawn'] },
    amend: { by: 'inspector', to: ['drawn'] },
    'stand-in': { by: 'manager', to: ['drawn'] },
    accept: { by: 'manager', to: ['accepted'] },
    concede: { by: 'manager', to: ['conceded'] },
    screen: { by: 'manager', to: ['screening'] },
    return: { by: 'manager', to: ['returned'] },
    withdraw: { by: 'manager', to: ['withdrawn'] },
  },
  screening: {
    record: { by: 'inspector', to: ['screening', 'screened'] }, // the last cord ends the screening
    amend: { by: 'inspector', to: ['screening'] },
  },
  screened: {
    amend: { by: 'inspector', to: ['screened'] },
    sort: { by: 'manager', to: ['sorted'] },
    return: { by: 'manager', to: ['returned'] },
  },
  accepted: {},
  conceded: {},
  sorted: {},
  returned: {},
  withdrawn: {},
}

const states = Object.keys(lifecycle).filter((state): state is LotState => state in lifecycle)

/** States in which something is still to be done. */
export const openStates = states.filter((state) => Object.keys(lifecycle[state]).length > 0)

/** States in which the act may be done. */
export function statesFor(act: LotAct): LotState[] {
  return states.filter((state) => lifecycle[state][act] !== undefined)
}
