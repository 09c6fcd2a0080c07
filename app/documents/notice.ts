// The facts of the notice that tells a supplier that a lot was not accepted, and what is asked of it.
import type { Clause } from '../kit/clause.ts'
import type { LotRecord } from '../lots/record/lot.ts'
import type { CordFacts } from '../lots/record/pick-list.ts'
import type { DecisionFacts } from '../lots/record/steps.ts'
import type { DecisionRule } from '../terms/item.ts'

export type Notice = {
  lotId: number
  supplier: string
  item: string
  purchaseOrder: string
  productionMark: string
  cordLimit: string
  decisionRule: DecisionRule
  accuracy: { crosstalk: string; returnLoss: string }
  clause: Clause | undefined
  plan: NonNullable<LotRecord['plan']>
  /** the last decision on the lot */
  decision: DecisionFacts
  /** cords tested so far, in the sample and besides, and how many of them are nonconforming */
  tested: number
  found: number
  /** cords found nonconforming, as many as fit; more: there are others */
  cords: CordFacts[]
  more: boolean
  /** a day such as 2026-12-11 */
  answerBy: string
}

/** Days to answer within (common practice, no source). */
const daysToAnswer = 14

/** Undefined of a lot that was accepted as the plan says, or is not decided. @param asked the day that the reader chose */
export function noticeOf(
  lot: LotRecord,
  cords: CordFacts[],
  asked: { by: string | undefined; atMost: number },
): Notice | undefined {
  const { plan, terms, announced, progress } = lot
  const decision = lot.closing ?? lot.decision
  if (!plan || !decision || decision.outcome === 'accepted') return undefined
  const usual = new Date(decision.at.getTime() + daysToAnswer * 86_400_000).toISOString().slice(0, 10)
  return {
    lotId: lot.id,
    supplier: lot.supplier.name,
    item: lot.item.name,
    purchaseOrder: announced.purchaseOrder,
    productionMark: announced.productionMark,
    cordLimit: terms.cordLimit,
    decisionRule: terms.marginalPolicy,
    accuracy: { crosstalk: terms.crosstalkAccuracy, returnLoss: terms.returnLossAccuracy },
    clause: terms.clause,
    plan,
    decision,
    tested: progress.sampleRecorded + progress.restRecorded,
    found: progress.sampleNonconforming + progress.restNonconforming,
    cords: cords.slice(0, asked.atMost),
    more: cords.length > asked.atMost,
    answerBy: asked.by ?? usual,
  }
}
