// The facts of the note that goes with the cords of a decided lot: what was decided, on what, and what travels.
import type { Balance } from '../lots/record/balance.ts'
import type { LotRecord } from '../lots/record/lot.ts'
import type { DecisionFacts } from '../lots/record/steps.ts'
import { inDocument, type LotInDocument } from './lot.ts'

export type NoteKind = 'release' | 'concession' | 'sorting' | 'return'

export type Note = LotInDocument & {
  kind: NoteKind
  balance: Balance
  /** the last decision, which closed the lot */
  decision: DecisionFacts
  /** every cord of the lot was tested, so that nothing is bounded */
  whole: boolean
  /** cords that the driver takes back */
  goingBack: number
}

const kinds = { accepted: 'release', conceded: 'concession', sorted: 'sorting', returned: 'return' } as const

/** Undefined of a lot that is not closed, or was withdrawn. */
export function noteForCords(lot: LotRecord): Note | undefined {
  const { plan, balance } = lot
  const decision = lot.closing ?? lot.decision
  if (!plan || !balance || !decision || decision.outcome === 'screened') return undefined
  return {
    kind: kinds[decision.outcome],
    ...inDocument(lot, plan),
    balance,
    decision,
    whole: decision.recorded === lot.size,
    goingBack: balance.sentBack,
  }
}
