// What a sample is worth: the cost of the best decision without it against the cost with it.
import { count } from '../check.ts'
import * as betaBinomial from '../distributions/beta-binomial.ts'
import type { Stages } from '../plans/plan.ts'
import { checkEconomics, meanOf } from './costs.ts'
import { costShares, type EconomicModel } from './expected-cost.ts'
import { outcomesOfPrior } from './outcomes.ts'

/** What can be decided without a sample. */
export type Untested = 'accept untested' | 'test every unit' | 'return untested'

/** All in the money of the costs. */
export type Information = {
  /** The best decision without a sample, and its expected cost. */
  readonly without: { readonly decision: Untested; readonly cost: number }
  /** What the sample's results save on average, before the sample is paid for; never below 0 for a plan that decides well. */
  readonly value: number
  /** What the sample costs on average: its tests, begun samples finished. */
  readonly price: number
  /** Value less price: what sampling by this plan saves in all; below 0 the plan is not worth it. */
  readonly net: number
  /** What it would save to know the number nonconforming in the lot for certain: no plan is worth more. */
  readonly perfect: number
}

/**
 * The value of a sample's information under a plan.
 *
 * @throws RangeError that names the argument, or the stage that is not one
 *
 * Source: expected value of sample and of perfect information, Raiffa & Schlaifer (1961), Applied Statistical Decision Theory
 * (from memory).
 */
export function valueOfInformation(economicModel: EconomicModel, plan: Stages): Information {
  const { costs, prior } = economicModel
  const without = bestWithoutSample(economicModel)
  let price = 0
  let before = 0
  for (const { sampleSize, reached } of outcomesOfPrior(plan, prior)) {
    price += costs.test * (sampleSize - before) * reached
    before = sampleSize
  }
  const net = without.cost - costShares(economicModel, plan).total
  return { without, value: net + price, price, net, perfect: without.cost - costWhenKnown(economicModel) }
}

/** The cheapest decision on the prior alone; where two cost the same, the one that leaves least to be done. */
export function bestWithoutSample(economicModel: EconomicModel): Information['without'] {
  const { lotSize, prior, costs, afterRejection } = economicModel
  count('lotSize', lotSize)
  checkEconomics(economicModel)

  const choices: Information['without'][] = [
    { decision: 'accept untested', cost: costs.escape * lotSize * meanOf(prior) },
    { decision: 'test every unit', cost: costs.test * lotSize },
  ]
  if (afterRejection === 'return') choices.push({ decision: 'return untested', cost: costs.rejection })
  return choices.reduce((best, next) => (next.cost < best.cost ? next : best))
}

/**
 * Expected cost if the number nonconforming D were known: escape·D where that is the least, else the cheapest way not to accept.
 * E[D; D ≤ k] = N·a/(a + b)·P(D′ ≤ k − 1) with D′ of N − 1 units under the prior with a + 1.
 */
function costWhenKnown({ lotSize, prior, costs, afterRejection }: EconomicModel): number {
  const testing = costs.test * lotSize
  const otherwise = afterRejection === 'return' ? Math.min(testing, costs.rejection) : testing
  if (lotSize === 0 || costs.escape * lotSize <= otherwise) return costs.escape * lotSize * meanOf(prior)
  const most = Math.floor(otherwise / costs.escape)
  const escaping = betaBinomial.atMost(most - 1, { sampleSize: lotSize - 1, a: prior.a + 1, b: prior.b })
  const worse = betaBinomial.moreThan(most, { sampleSize: lotSize, ...prior })
  return costs.escape * lotSize * meanOf(prior) * escaping + otherwise * worse
}
