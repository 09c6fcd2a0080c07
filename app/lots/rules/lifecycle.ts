// What may be done with a lot in each state, by whom, and where it leads: written down once. The database's triggers say the same, and a test compares.

import type { LotAct, LotState } from '../../terms/lot.ts'
import type { Role } from '../../terms/person.ts'

/** `to`: the states in which the lot may be afterwards. */
export type Step = { by: Role; to: readonly LotState[] }

/** The acts for which a lot is open, each with who may do it. */
export type OpenActs = Partial<Record<LotAct, Step>>

/** A lot is announced by an officer; everything that follows stands here. A state without an act is the end. */
export const lifecycle: Record<LotState, OpenActs> = {
  announced: {
    correct: { by: 'officer', to: ['announced'] },
    'choose-rule': { by: 'officer', to: ['announced'] },
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
    rule: { by: 'manager', to: ['drawn'] },
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

/** States after the decision on the sample, whatever it was. */
export const decidedStates = states.filter((state) => state !== 'withdrawn' && lifecycle[state].withdraw === undefined)

/** States in which cords are recorded, or all of them are: what is counted then is the whole lot and no longer the sample. */
export const wholeLotStates: readonly LotState[] = ['screening', 'screened', 'sorted']

/** Where the act leads from this state; of several states the one in which the lot is left where nothing else happens. */
export function stateAfter(act: LotAct, from: LotState): LotState {
  const [to] = lifecycle[from][act]?.to ?? []
  if (to === undefined) throw new Error(`${act} is not done with a lot that is ${from}`)
  return to
}

/** States in which the act may be done. */
export function statesFor(act: LotAct): LotState[] {
  return states.filter((state) => lifecycle[state][act] !== undefined)
}
