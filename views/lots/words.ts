// How the parts of a lot's story are called.
import type { LotFacts, LotState, Outcome, PlanKind } from '../../app/lots/show.ts'
import type { Act } from '../../app/lots/turn.ts'
import { counted, whole } from '../figures.ts'

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

export const outcomeWords: Record<Outcome, string> = {
  accepted: 'Accepted',
  conceded: 'Accepted by concession',
  screened: 'All the rest to be tested',
  sorted: 'The conforming cords kept, the others sent back',
  returned: 'Returned',
}

export const kindWords: Record<PlanKind, string> = {
  'zero-acceptance': 'none may fail',
  single: 'both risks kept',
  percentage: 'a percentage of the lot',
  contract: 'the contract’s plan',
  'every-cord': 'every cord',
}

/** What a lot waits for, as the head of a group and as the one thing to do next. */
export const actWords: Record<Act, { waits: string; doing: string; whose: string }> = {
  receive: { waits: 'To be received', doing: 'Receive this lot', whose: 'the warehouse inspector' },
  plan: { waits: 'To be planned', doing: 'Choose how many to test', whose: 'the procurement officer' },
  draw: { waits: 'To be drawn', doing: 'Draw the cords', whose: 'the warehouse inspector' },
  test: { waits: 'To be tested', doing: 'Go to the bench', whose: 'the warehouse inspector' },
  decide: { waits: 'To be decided', doing: 'Decide on this lot', whose: 'the manager' },
  screen: { waits: 'All the rest to be tested', doing: 'Go to the bench', whose: 'the warehouse inspector' },
  close: { waits: 'To be closed after screening', doing: 'Close this lot', whose: 'the manager' },
}

/** The plan in one sentence: how many are tested and what the plan allows. */
export function planSentence({ kind, sampleSize, acceptanceNumber }: NonNullable<LotFacts['plan']>): string {
  if (kind === 'every-cord') return `Test all ${whole(sampleSize)}; conforming cords are kept, the others go back.`
  const allowed = acceptanceNumber === 0 ? 'none may fail' : `at most ${whole(acceptanceNumber)} may fail`
  return `Test ${counted(sampleSize, 'cord')}; ${allowed}.`
}

/** Carton 7, place 37. */
export function placeWords({ carton, place }: { carton: number; place: number }): string {
  return `carton ${whole(carton)}, place ${whole(place)}`
}
