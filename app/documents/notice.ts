// The facts of the notice that tells a supplier that a lot was not accepted, and what is asked of it.
import type { LotRecord } from '../lots/record/lot.ts'
import type { CordFacts } from '../lots/record/pick-list.ts'
import type { DecisionFacts } from '../lots/record/steps.ts'
import type { DecisionRule } from '../terms/item.ts'
import { inDocument, type LotInDocument } from './lot.ts'

export type Notice = LotInDocument & {
  decisionRule: DecisionRule
  accuracy: { crosstalk: string; returnLoss: string }
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

/** Undefined of a lot that was accepted as the plan says, or is not decided. @param asked the day that the reader chose, and which day a moment is for the firm */
export function noticeOf(
  lot: LotRecord,
  cords: CordFacts[],
  asked: { by: string | undefined; atMost: number; dayOf: (instant: Date) => string },
): Notice | undefined {
  const { plan, terms, progress } = lot
  const decision = lot.closing ?? lot.decision
  if (!plan || !decision || decision.outcome === 'accepted') return undefined
  const usual = asked.dayOf(new Date(decision.at.getTime() + daysToAnswer * 86_400_000))
  return {
    ...inDocument(lot, plan),
    decisionRule: terms.marginalPolicy,
    accuracy: { crosstalk: terms.crosstalkAccuracy, returnLoss: terms.returnLossAccuracy },
    decision,
    tested: progress.sampleRecorded + progress.restRecorded,
    found: progress.sampleNonconforming + progress.restNonconforming,
    cords: cords.slice(0, asked.atMost),
    more: cords.length > asked.atMost,
    answerBy: asked.by ?? usual,
  }
}
