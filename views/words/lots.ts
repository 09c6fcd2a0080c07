// How the states of a lot, what is decided on it and what it waits for are called.
import type { Act } from '../../app/lots/rules/next-step.ts'
import type { Disposition, LotState } from '../../app/terms/lot.ts'
import { roleWords } from './people.ts'

/** As a lot's page and the lists say it. */
export const stateWords: Record<LotState, string> = {
  announced: 'announced',
  received: 'received',
  planned: 'plan frozen',
  drawn: 'drawn',
  accepted: 'accepted',
  conceded: 'accepted by concession',
  screening: 'being screened',
  screened: 'screened, to be closed',
  sorted: 'sorted: conforming cords kept',
  returned: 'returned',
  withdrawn: 'withdrawn',
}

/** As a refusal says it: the lot is … and cannot be … */
export const stateInRefusal: Record<LotState, string> = {
  ...stateWords,
  planned: 'planned',
  conceded: 'accepted under concession',
  screened: 'screened',
  sorted: 'sorted',
}

/** As a decision's own page begins with it. */
export const outcomeWords: Record<Disposition, string> = {
  accepted: 'Accepted',
  conceded: 'Accepted by concession',
  screened: 'All the rest to be tested',
  sorted: 'The conforming cords kept, the others sent back',
  returned: 'Returned',
}

/** As a row of a supplier's lots says it. */
export const outcomeInRow: Record<Disposition, string> = {
  accepted: stateWords.accepted,
  conceded: stateWords.conceded,
  screened: 'all the rest tested',
  sorted: stateWords.sorted,
  returned: stateWords.returned,
}

/** What a lot waits for, as the head of a group and as the one thing to do next. */
export const actWords: Record<Act, { step: string; waits: string; doing: string; whose: string }> = {
  receive: { step: 'Receive', waits: 'To be received', doing: 'Receive this lot', whose: `the ${roleWords.inspector}` },
  plan: { step: 'Plan', waits: 'To be planned', doing: 'Choose how many to test', whose: `the ${roleWords.officer}` },
  draw: { step: 'Draw', waits: 'To be drawn', doing: 'Draw the cords', whose: `the ${roleWords.inspector}` },
  test: { step: 'Test', waits: 'To be tested', doing: 'Go to the bench', whose: `the ${roleWords.inspector}` },
  rule: { step: 'Rule', waits: 'To be ruled on', doing: 'Rule on the cord', whose: `the ${roleWords.manager}` },
  decide: { step: 'Decide', waits: 'To be decided', doing: 'Decide on this lot', whose: `the ${roleWords.manager}` },
  screen: {
    step: 'Screen',
    waits: 'All the rest to be tested',
    doing: 'Go to the bench',
    whose: `the ${roleWords.inspector}`,
  },
  close: {
    step: 'Close',
    waits: 'To be closed after screening',
    doing: 'Close this lot',
    whose: `the ${roleWords.manager}`,
  },
}
