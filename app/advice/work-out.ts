// The arithmetic of the advice, apart from where its facts are from: ways compared, one recommended, and what would change that.
import type { Task } from '../kit/task.ts'
import type { LotFacts } from '../lots/record/lot.ts'
import * as beta from '../statistics/distributions/beta.ts'
import type { AfterRejection } from '../statistics/economics/costs.ts'
import type { Deal } from '../statistics/economics/expected-cost.ts'
import type { LotResult } from '../statistics/history/lots.ts'
import { type LeftOut, type StandardWish, waysFor } from './alternatives.ts'
import { type AssessedWay, assess } from './evaluate.ts'
import { type Belief, beliefOf, type TypedBelief } from './prior.ts'
import { type Recommendation, recommend } from './recommend.ts'
import { type Sensitivity, sensitivityOf } from './sensitivity.ts'

/** What the address may say beside the lot. good: nonconforming cords of a lot that should rarely be sent back. */
export type AdviceWish = {
  good: number
  goodRisk: number
  share: number
  afterRejection: AfterRejection
  belief: TypedBelief | undefined
}

/** Plain facts alone, so that they can be handed to another thread. */
export type AdviceQuestion = {
  size: number
  terms: Pick<LotFacts['terms'], 'tooMany' | 'catchOf100' | 'costTestCents' | 'costEscapeCents' | 'costReturnCents'>
  wish: AdviceWish
  critical: boolean
  standard: StandardWish | undefined
  /** decided lots of its supplier, and of every other supplier taken together */
  own: LotResult[]
  others: LotResult[]
}

export type WorkedOut = {
  belief: Belief
  /** the middle 90 % of the belief, as fractions */
  interval: { lower: number; upper: number }
  /** the recommended one first */
  ways: AssessedWay[]
  leftOut: LeftOut[]
  recommendation: Recommendation
  sensitivity: Sensitivity
}

/** What it takes is bounded in steps, and so the same question has the same answer on every machine. */
export const adviceTask: Task<AdviceQuestion, WorkedOut> = { name: 'advice', work: workOut }

function workOut(question: AdviceQuestion): WorkedOut {
  const { size, terms, wish, critical, standard, own, others } = question
  const belief = beliefOf(own, others, wish.belief)
  const { good, goodRisk, share, afterRejection } = wish
  const confidence = Number(terms.catchOf100) / 100
  const costs = { test: terms.costTestCents, escape: terms.costEscapeCents, rejection: terms.costReturnCents }
  const deal: Deal = { lotSize: size, prior: { a: belief.a, b: belief.b }, costs, afterRejection }
  const consumer = { nonconforming: terms.tooMany, risk: Number((1 - confidence).toPrecision(12)) }
  const producer = { nonconforming: Math.min(good, terms.tooMany - 1), risk: goodRisk }
  const { ways, leftOut } = waysFor({ lotSize: size, producer, consumer, share }, standard)
  const assessed = ways.map((way) => assess(way, deal, { tooMany: terms.tooMany, confidence }))
  const recommendation = recommend(assessed, { critical })
  const { chosen } = recommendation
  return {
    belief,
    interval: { lower: beta.quantile(0.05, belief), upper: beta.upperQuantile(0.05, belief) },
    ways: [chosen, ...assessed.filter((way) => way !== chosen)],
    leftOut,
    recommendation,
    sensitivity: sensitivityOf(assessed, chosen, deal),
  }
}
