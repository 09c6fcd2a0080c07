// The arithmetic of the advice, apart from where its facts are from: ways compared, one recommended, and what would change that.
import type { LotFacts } from '../lots/show.ts'
import * as beta from '../statistics/distributions/beta.ts'
import type { Prior } from '../statistics/economics/costs.ts'
import type { Deal } from '../statistics/economics/expected-cost.ts'
import type { AdviceWish } from './advise.ts'
import { type AssessedWay, assess } from './assess.ts'
import { type Recommendation, recommend } from './recommend.ts'
import { type Sensitivity, sensitivityOf } from './sensitivity.ts'
import { type LeftOut, type StandardWish, waysFor } from './ways.ts'

/** Plain facts alone, so that they can be handed to another thread. */
export type AdviceQuestion = Pick<LotFacts, 'size' | 'terms'> & {
  wish: AdviceWish
  critical: boolean
  standard: StandardWish | undefined
  belief: Prior
}

export type WorkedOut = {
  /** the middle 90 % of the belief, as fractions */
  interval: { lower: number; upper: number }
  /** the recommended one first */
  ways: AssessedWay[]
  leftOut: LeftOut[]
  recommendation: Recommendation
  sensitivity: Sensitivity
}

/** Works out the advice; what it takes is bounded in steps, and so is the same for the same question on every machine. */
export function workOut(question: AdviceQuestion): WorkedOut {
  const { size, terms, wish, critical, standard, belief } = question
  const { good, goodRisk, share, afterRejection } = wish
  const confidence = Number(terms.catchOf100) / 100
  const costs = { test: terms.costTestCents, escape: terms.costEscapeCents, rejection: terms.costReturnCents }
  const deal: Deal = { lotSize: size, prior: belief, costs, afterRejection }
  const consumer = { nonconforming: terms.tooMany, risk: Number((1 - confidence).toPrecision(12)) }
  const producer = { nonconforming: Math.min(good, terms.tooMany - 1), risk: goodRisk }
  const { ways, leftOut } = waysFor({ lotSize: size, producer, consumer, share }, standard)
  const assessed = ways.map((way) => assess(way, deal, { tooMany: terms.tooMany, confidence }))
  const recommendation = recommend(assessed, { critical })
  const { chosen } = recommendation
  return {
    interval: { lower: beta.quantile(0.05, belief), upper: beta.upperQuantile(0.05, belief) },
    ways: [chosen, ...assessed.filter((way) => way !== chosen)],
    leftOut,
    recommendation,
    sensitivity: sensitivityOf(assessed, chosen, deal),
  }
}
