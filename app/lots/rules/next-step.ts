// Whose turn it is with a lot.

import type { LotState, Verdict } from '../../terms/lot.ts'
import type { Role } from '../../terms/person.ts'

/** receive, draw, test and screen are the inspector's; plan is the officer's; decide and close are the manager's. */
export type Act = 'receive' | 'plan' | 'draw' | 'test' | 'decide' | 'screen' | 'close'
export type NextStep = { act: Act; role: Role }

const turns = {
  receive: { act: 'receive', role: 'inspector' },
  plan: { act: 'plan', role: 'officer' },
  draw: { act: 'draw', role: 'inspector' },
  test: { act: 'test', role: 'inspector' },
  decide: { act: 'decide', role: 'manager' },
  screen: { act: 'screen', role: 'inspector' },
  close: { act: 'close', role: 'manager' },
} as const satisfies Record<Act, NextStep>

/** All that a lot may wait for, in the order of its story. */
export const nextSteps: NextStep[] = Object.values(turns)

/** What a lot waits for; undefined when nothing is left to do. A drawn lot is the manager's as soon as the plan has a verdict. */
export function nextStepOf(state: LotState, verdict: Verdict | undefined): NextStep | undefined {
  switch (state) {
    case 'announced':
      return turns.receive
    case 'received':
      return turns.plan
    case 'planned':
      return turns.draw
    case 'drawn':
      return verdict === undefined ? turns.test : turns.decide
    case 'screening':
      return turns.screen
    case 'screened':
      return turns.close
    case 'accepted':
    case 'conceded':
    case 'sorted':
    case 'returned':
    case 'withdrawn':
      return undefined
  }
}
