// The arithmetic of the plan page, apart from where its facts are from: ways compared, one recommended, and what would change that.

import type { FinishedLot } from '../history/finished.ts'
import type { Task } from '../kit/task.ts'
import type { FormerPlan } from '../lots/record/former.ts'
import type { LotRecord } from '../lots/record/lot.ts'
import type { Demand } from '../lots/rules/demand.ts'
import { requirementsOf } from '../lots/rules/plan-rule.ts'
import * as beta from '../statistics/distributions/beta.ts'
import type { AfterRejection } from '../statistics/economics/costs.ts'
import type { EconomicModel } from '../statistics/economics/expected-cost.ts'
import { acceptanceOfLot } from '../statistics/plans/measures.ts'
import { alternativesFor, type LeftOut, type StandardWish } from './alternatives.ts'
import { type AssessedAlternative, assess, type EvaluatedAlternative, type Protection, price } from './evaluate.ts'
import { type Prior, priorOf, type TypedPrior } from './prior.ts'
import { type Recommendation, type RecommendationByProtection, recommend, recommendByProtection } from './recommend.ts'
import { type Sensitivity, sensitivityOf } from './sensitivity.ts'
import { type Tries, triesOf } from './tries.ts'

/** What the address may say beside the lot. good: nonconforming cords of a lot that should rarely be sent back. own: a plan such as 50/1. */
export type Requirements = {
  good: number
  goodRisk: number
  share: number
  own: { sampleSize: number; acceptanceNumber: number } | undefined
  afterRejection: AfterRejection
  belief: TypedPrior | undefined
}

/** As it is asked: an item says itself what follows a rejection, unless the question does. */
export type AskedOfAdvice = Omit<Requirements, 'afterRejection'> & { afterRejection: AfterRejection | undefined }

/** Plain facts alone, so that they can be handed to another thread. */
export type AdviceQuestion = {
  size: number
  terms: Pick<LotRecord['terms'], 'tooMany' | 'catchOf100' | 'costTestCents' | 'costEscapeCents' | 'costReturnCents'>
  requirements: Requirements
  /** cords of a group, as the item says it */
  groupSize: number
  critical: boolean
  standard: StandardWish | undefined
  /** whether the first picks of the draw are owed to the standard's plan, which a lot outside its series does not owe */
  inSeries: boolean
  /** of a resubmitted lot: the standard's plan that it is demanded to meet, and the plan that it was rejected by */
  tightened: Demand['tightened']
  before: FormerPlan | undefined
  /** of this item from this supplier, the lot itself left out */
  finished: FinishedLot[]
}

/** With a belief every way has its cost; without one the ways are told apart by what they protect. The recommended one stands first. */
export type WorkedOut = { leftOut: LeftOut[]; tries: Tries[] } & (
  | {
      kind: 'priced'
      prior: Prior
      /** the middle 90 % of the belief, as fractions */
      interval: { lower: number; upper: number }
      alternatives: EvaluatedAlternative[]
      recommendation: Recommendation
      sensitivity: Sensitivity
    }
  | { kind: 'protection'; alternatives: AssessedAlternative[]; recommendation: RecommendationByProtection }
)

/** What it takes is bounded in steps, and so the same question has the same answer on every machine. */
export const adviceTask: Task<AdviceQuestion, WorkedOut> = { name: 'advice', work: workOut }

function workOut(question: AdviceQuestion): WorkedOut {
  const { size, terms, requirements, critical, finished, inSeries, tightened } = question
  const protection = protectionOf(question)
  const demand = { critical, tightened: tightened !== undefined }
  const { ways, leftOut } = waysFor(question)
  const fetch = inSeries ? ways.find(({ kind }) => kind === 'standard')?.plan.stages[0] : undefined
  const assessed = ways.map((way) => assess(way, size, protection, fetch))
  const prior = priorOf(finished, requirements.belief)
  if (!prior) {
    const recommendation = recommendByProtection(assessed, demand)
    const { chosen } = recommendation
    const alternatives = chosenFirst(chosen, assessed)
    return { kind: 'protection', leftOut, tries: triesOf(question, chosen), alternatives, recommendation }
  }
  const costs = { test: terms.costTestCents, escape: terms.costEscapeCents, rejection: terms.costReturnCents }
  const { a, b } = prior
  const economicModel: EconomicModel = {
    lotSize: size,
    prior: { a, b },
    costs,
    afterRejection: requirements.afterRejection,
  }
  const priced = assessed.map((way) => price(way, economicModel, fetch))
  const recommendation = recommend(priced, demand)
  const { chosen } = recommendation
  return {
    kind: 'priced',
    prior,
    interval: { lower: beta.quantile(0.05, prior), upper: beta.upperQuantile(0.05, prior) },
    alternatives: chosenFirst(chosen, priced),
    leftOut,
    tries: triesOf(question, chosen),
    recommendation,
    sensitivity: sensitivityOf(priced, chosen, economicModel, fetch),
  }
}

/** A way protects where it keeps the item's demand, and lets no more through than the plan that is demanded. */
function protectionOf({ size: lotSize, terms, requirements, tightened }: AdviceQuestion): Protection {
  const { tooMany } = terms
  const { producer } = requirementsOf({ lotSize, ...terms }, requirements)
  const asked = { tooMany, confidence: Number(terms.catchOf100) / 100, good: producer.nonconforming }
  if (!tightened) return asked
  return { ...asked, mostAcceptance: acceptanceOfLot({ stages: tightened }, { lotSize, nonconforming: tooMany }) }
}

function waysFor({ size, terms, requirements, groupSize, standard }: AdviceQuestion) {
  const { own } = requirements
  const named =
    own && own.sampleSize <= size && own.acceptanceNumber < own.sampleSize
      ? { ...own, rejectionNumber: own.acceptanceNumber + 1 }
      : undefined
  return alternativesFor({ ...requirementsOf({ lotSize: size, ...terms }, requirements), groupSize }, standard, named)
}

function chosenFirst<Way>(chosen: Way, ways: Way[]): Way[] {
  return [chosen, ...ways.filter((way) => way !== chosen)]
}
