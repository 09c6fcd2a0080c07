// The arithmetic of the advice, apart from where its facts are from: ways compared, one recommended, and what would change that.
import type { Task } from '../kit/task.ts'
import type { LotRecord } from '../lots/record/lot.ts'
import * as beta from '../statistics/distributions/beta.ts'
import type { AfterRejection } from '../statistics/economics/costs.ts'
import type { EconomicModel } from '../statistics/economics/expected-cost.ts'
import type { LotResult } from '../statistics/history/lots.ts'
import { alternativesFor, type LeftOut, type StandardWish } from './alternatives.ts'
import { type EvaluatedAlternative, evaluate } from './evaluate.ts'
import { type Prior, priorOf, type TypedPrior } from './prior.ts'
import { type Recommendation, recommend } from './recommend.ts'
import { type Sensitivity, sensitivityOf } from './sensitivity.ts'

/** What the address may say beside the lot. good: nonconforming cords of a lot that should rarely be sent back. */
export type Requirements = {
  good: number
  goodRisk: number
  share: number
  afterRejection: AfterRejection
  belief: TypedPrior | undefined
}

/** Plain facts alone, so that they can be handed to another thread. */
export type AdviceQuestion = {
  size: number
  terms: Pick<LotRecord['terms'], 'tooMany' | 'catchOf100' | 'costTestCents' | 'costEscapeCents' | 'costReturnCents'>
  requirements: Requirements
  critical: boolean
  standard: StandardWish | undefined
  /** decided lots of its supplier, and of every other supplier taken together */
  own: LotResult[]
  others: LotResult[]
}

export type WorkedOut = {
  prior: Prior
  /** the middle 90 % of the belief, as fractions */
  interval: { lower: number; upper: number }
  /** the recommended one first */
  alternatives: EvaluatedAlternative[]
  leftOut: LeftOut[]
  recommendation: Recommendation
  sensitivity: Sensitivity
}

/** What it takes is bounded in steps, and so the same question has the same answer on every machine. */
export const adviceTask: Task<AdviceQuestion, WorkedOut> = { name: 'advice', work: workOut }

function workOut(question: AdviceQuestion): WorkedOut {
  const { size, terms, requirements, critical, standard, own, others } = question
  const prior = priorOf(own, others, requirements.belief)
  const { good, goodRisk, share, afterRejection } = requirements
  const confidence = Number(terms.catchOf100) / 100
  const costs = { test: terms.costTestCents, escape: terms.costEscapeCents, rejection: terms.costReturnCents }
  const economicModel: EconomicModel = { lotSize: size, prior: { a: prior.a, b: prior.b }, costs, afterRejection }
  const consumer = { nonconforming: terms.tooMany, risk: Number((1 - confidence).toPrecision(12)) }
  const producer = { nonconforming: Math.min(good, terms.tooMany - 1), risk: goodRisk }
  const { ways, leftOut } = alternativesFor({ lotSize: size, producer, consumer, share }, standard)
  const fetch = ways.find(({ kind }) => kind === 'standard')?.plan.stages[0]
  const assessed = ways.map((way) => evaluate(way, economicModel, { tooMany: terms.tooMany, confidence }, fetch))
  const recommendation = recommend(assessed, { critical })
  const { chosen } = recommendation
  return {
    prior,
    interval: { lower: beta.quantile(0.05, prior), upper: beta.upperQuantile(0.05, prior) },
    alternatives: [chosen, ...assessed.filter((way) => way !== chosen)],
    leftOut,
    recommendation,
    sensitivity: sensitivityOf(assessed, chosen, economicModel, fetch),
  }
}
