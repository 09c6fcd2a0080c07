// Whose turn it is with a lot.

import type { LotAct, LotState, Verdict } from '../../terms/lot.ts'
import type { Role } from '../../terms/person.ts'
import { lifecycle } from './lifecycle.ts'

/** receive, draw, test and screen are the inspector's; plan is the officer's; rule, decide and close are the manager's. */
export type Act = 'receive' | 'plan' | 'draw' | 'test' | 'rule' | 'decide' | 'screen' | 'close'
export type NextStep = { act: Act; role: Role }

/** Each step by the act of the lifecycle that takes the lot on. */
const steps: { step: Act; act: LotAct; state: LotState }[] = [
  { step: 'receive', act: 'receive', state: 'announced' },
  { step: 'plan', act: 'plan', state: 'received' },
  { step: 'draw', act: 'draw', state: 'planned' },
  { step: 'test', act: 'record', state: 'drawn' },
  { step: 'rule', act: 'rule', state: 'drawn' },
  { step: 'decide', act: 'accept', state: 'drawn' },
  { step: 'screen', act: 'record', state: 'screening' },
  { step: 'close', act: 'sort', state: 'screened' },
]

/** All that a lot may wait for, in the order of its record. */
export const nextSteps: NextStep[] = steps.flatMap(({ step, act, state }) => {
  const role = lifecycle[state][act]?.by
  return role ? [{ act: step, role }] : []
})

export type Reached = {
  state: LotState
  verdict: Verdict | undefined
  /** the first fetch, where there is one, has not ended */
  fetchOpen: boolean
  /** cords left to test, and drawn cords that are undecided */
  toDo: number
  undecided: number
}

/**
 * What a lot waits for; undefined when nothing is left to do. A drawn lot is the manager's as soon as the plan has a verdict and the
 * first fetch, where there is one, has ended, or nothing is left to test but undecided cords.
 */
export function nextStepOf({ state, verdict, fetchOpen, toDo, undecided }: Reached): NextStep | undefined {
  const open = steps.filter((each) => each.state === state)
  const stuck = toDo === 0 && undecided > 0 && open.find(({ step }) => step === 'rule')
  const step = verdict === undefined || fetchOpen ? stuck || open[0] : open.at(-1)
  return nextSteps.find(({ act }) => act === step?.step)
}
