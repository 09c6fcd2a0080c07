// The advice for one received lot: ways compared by cost and protection, one recommended, and what would change that.
import type { Db } from '../../db/client.ts'
import type { LotFacts } from '../lots/show.ts'
import { factsOf } from '../lots/show.ts'
import * as beta from '../statistics/distributions/beta.ts'
import type { AfterRejection } from '../statistics/economics/costs.ts'
import type { Deal } from '../statistics/economics/expected-cost.ts'
import { type AssessedWay, assess } from './assess.ts'
import { type Belief, beliefOf, type TypedBelief } from './belief.ts'
import { lotResultsFor } from './history.ts'
import { type Recommendation, recommend } from './recommend.ts'
import { type Sensitivity, sensitivityOf } from './sensitivity.ts'
import { standardFor } from './standard.ts'
import { type StandardWish, waysFor } from './ways.ts'

/** What the address may say beside the lot. good: nonconforming cords of a lot that should rarely be sent back. */
export type AdviceWish = {
  good: number
  goodRisk: number
  share: number
  afterRejection: AfterRejection
  belief: TypedBelief | undefined
}

export type Advice = {
  lot: LotFacts
  wish: AdviceWish
  critical: boolean
  belief: Belief
  /** the middle 90 % of the belief, as fractions */
  interval: { lower: number; upper: number }
  /** the standard's plan is compared only where a contract names its limit and the lot belongs to a series */
  standard: StandardWish | undefined
  isolated: boolean
  /** the recommended one first */
  ways: AssessedWay[]
  recommendation: Recommendation
  sensitivity: Sensitivity
}

/** Works out the advice. Costs are in whole cents of the firm's currency; replacements and credits are left out. */
export async function adviceFor(db: Db, lotId: number, wish: AdviceWish): Promise<Advice> {
  const lot = await factsOf(db, lotId)
  const { critical, isolated, standard } = await standardFor(db, lotId)
  const { own, others } = await lotResultsFor(db, lot.supplier.id, lotId)
  const belief = beliefOf(own, others, wish.belief)
  const { ways, recommendation, deal } = compare(lot, wish, { critical, standard, belief })
  const { chosen } = recommendation
  return {
    lot,
    wish,
    critical,
    isolated,
    belief,
    interval: { lower: beta.quantile(0.05, belief), upper: beta.upperQuantile(0.05, belief) },
    standard,
    ways: [chosen, ...ways.filter((way) => way !== chosen)],
    recommendation,
    sensitivity: sensitivityOf(ways, chosen, deal),
  }
}

type Known = { critical: boolean; standard: StandardWish | undefined; belief: Belief }

function compare({ size, terms }: LotFacts, wish: AdviceWish, { critical, standard, belief }: Known) {
  const { good, goodRisk, share, afterRejection } = wish
  const confidence = Number(terms.catchOf100) / 100
  const costs = { test: terms.costTestCents, escape: terms.costEscapeCents, rejection: terms.costReturnCents }
  const deal: Deal = { lotSize: size, prior: { a: belief.a, b: belief.b }, costs, afterRejection }
  const consumer = { nonconforming: terms.tooMany, risk: Number((1 - confidence).toPrecision(12)) }
  const producer = { nonconforming: Math.min(good, terms.tooMany - 1), risk: goodRisk }
  const ways = waysFor({ lotSize: size, producer, consumer, share }, standard).map((way) =>
    assess(way, deal, { tooMany: terms.tooMany, confidence }),
  )
  return { ways, recommendation: recommend(ways, { critical }), deal }
}
