// The facts of the note that goes with the cords of a decided lot: what was decided, on what, and what travels.
import type { Clause } from '../kit/clause.ts'
import type { Balance } from '../lots/record/balance.ts'
import type { LotRecord } from '../lots/record/lot.ts'
import type { DecisionFacts } from '../lots/record/steps.ts'

export type NoteKind = 'release' | 'concession' | 'sorting' | 'return'

export type Note = {
  kind: NoteKind
  lotId: number
  supplier: string
  item: string
  purchaseOrder: string
  productionMark: string
  cordLimit: string
  clause: Clause | undefined
  plan: NonNullable<LotRecord['plan']>
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
  const { plan, balance, terms, announced } = lot
  const decision = lot.closing ?? lot.decision
  if (!plan || !balance || !decision || decision.outcome === 'screened') return undefined
  return {
    kind: kinds[decision.outcome],
    lotId: lot.id,
    supplier: lot.supplier.name,
    item: lot.item.name,
    purchaseOrder: announced.purchaseOrder,
    productionMark: announced.productionMark,
    cordLimit: terms.cordLimit,
    clause: terms.clause,
    plan,
    balance,
    decision,
    whole: decision.recorded === lot.size,
    goingBack: balance.sentBack,
  }
}
