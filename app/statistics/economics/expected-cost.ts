// What a plan costs on average, parted into testing, escapes and rejections, when the lot's quality is known as a prior.

import type { BetaPrior } from '../bounds/posterior.ts'
import { count } from '../check.ts'
import type { Outcome } from '../plans/measures.ts'
import { checkStages, type Stages } from '../plans/plan.ts'
import { type AfterRejection, type Costs, checkEconomics, costOfRejection, meanOf } from './costs.ts'
import { outcomesOfPrior } from './outcomes.ts'

/** A lot to decide on: its size, what is believed of it, what things cost, and what follows a rejection. */
export type EconomicModel = {
  readonly lotSize: number
  readonly prior: BetaPrior
  readonly costs: Costs
  readonly afterRejection: AfterRejection
}

/** Expected cost by what it is paid for; `testing` holds the screening of rejected lots. */
export type CostShares = {
  readonly testing: number
  readonly escapes: number
  readonly returns: number
  readonly total: number
}

/**
 * Expected cost of a lot under a plan: `test` for every unit tested (begun samples are finished), `escape` for every
 * nonconforming unit left untested in an accepted lot (those found are taken out), and on rejection either `test` for
 * every unit of the rest, none of which escapes, or `rejection` once.
 *
 * @param plan its stages; no stages accept untested
 * @throws RangeError that names the argument, or the stage that is not one
 *
 * Source: preposterior analysis under a beta prior (Raiffa & Schlaifer 1961, from memory). The mean of the untested rest
 * among accepted lots is taken under the prior with a + 1, by p·Beta(p; a, b) = a/(a + b)·Beta(p; a + 1, b).
 *
 * @example expectedCost({ lotSize: 480, prior: { a: 1, b: 9 }, costs: { test: 2, escape: 150, rejection: 0 },
 *   afterRejection: 'screen' }, { stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }) // 999.99
 */
export function expectedCost(economicModel: EconomicModel, plan: Stages): number {
  return costShares(economicModel, plan).total
}

/** The parts of `expectedCost`, with the same arguments and errors. */
export function costShares(economicModel: EconomicModel, plan: Stages): CostShares {
  return sharesOfOutcomes(economicModel, plan, outcomesOfPrior(plan, economicModel.prior))
}

/** The same where the outcomes of the plan under the model's prior are known already. */
export function sharesOfOutcomes(economicModel: EconomicModel, plan: Stages, outcomes: readonly Outcome[]): CostShares {
  const { lotSize, prior, costs, afterRejection } = economicModel
  count('lotSize', lotSize)
  checkEconomics(economicModel)
  checkStages(plan, lotSize)

  if (plan.stages.length === 0) {
    const escapes = costs.escape * lotSize * meanOf(prior)
    return { testing: 0, escapes, returns: 0, total: escapes }
  }
  // Accepted lots weighted by their fraction: among them the mean of what is left untested is known.
  const weighted = outcomesOfPrior(plan, { a: prior.a + 1, b: prior.b })
  let testing = 0
  let escapes = 0
  let returns = 0
  let before = 0
  for (const [index, { sampleSize, reached, rejected }] of outcomes.entries()) {
    testing += costs.test * (sampleSize - before) * reached
    escapes += costs.escape * (lotSize - sampleSize) * meanOf(prior) * weighted[index]!.accepted
    const rejecting = rejected * costOfRejection(sampleSize, economicModel)
    if (afterRejection === 'screen') testing += rejecting
    else returns += rejecting
    before = sampleSize
  }
  return { testing, escapes, returns, total: testing + escapes + returns }
}
