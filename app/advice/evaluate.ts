// What a way of testing costs and protects, for one lot and one belief about it. Every way is charged alike: testing stops at the
// rejection number, and in a series not before the first fetch has ended.
import { exceeds, riskOf } from '../statistics/check.ts'
import { type CostShares, type EconomicModel, sharesOfOutcomes } from '../statistics/economics/expected-cost.ts'
import {
  type BeyondVerdict,
  beyondVerdictInLot,
  beyondVerdictUnderPrior,
  type FetchedFirst,
} from '../statistics/economics/first-fetch.ts'
import { outcomesOfPrior } from '../statistics/economics/outcomes.ts'
import { unitsSparedInLot, unitsSparedUnderPrior } from '../statistics/economics/stopping.ts'
import { acceptanceOfLot, outcomesOfLot } from '../statistics/plans/measures.ts'
import { greatestInteger } from '../statistics/search.ts'
import type { Alternative } from './alternatives.ts'

/**
 * The number that is too many in this lot, and of how many such lots, as a share, at least so many must be caught; `good`: the
 * nonconforming cords of a lot that should rarely be rejected.
 */
export type Protection = {
  tooMany: number
  confidence: number
  good: number
  /** such a lot may be accepted no more often than this, besides: by the plan that a contract demands; 1 where none does */
  mostAcceptance?: number
}

/** What a way protects, whatever is believed of the supplier. */
export type AssessedAlternative = Alternative & {
  /** the most cords that may have to be tested for the plan's verdict */
  testsAtMost: number
  /** a lot with too many is accepted, and rejected, so often; every cord: never accepted, as the others go back */
  acceptance: number
  rejection: number
  /** a lot with no more than the good number is rejected, and accepted, so often; every cord: never rejected as a whole */
  rejectionOfGood: number
  acceptanceOfGood: number
  /** cords tested on average in a lot with too many */
  testsInBadLot: number
  /** the worst lot that still slips through more often than the demand allows: its nonconforming cords; 0 where none does */
  detectsFrom: number
  /** keeps the demanded protection */
  protects: boolean
}

/** With what it costs under a belief. */
export type EvaluatedAlternative = AssessedAlternative & {
  /** in cents: testing (with screening), escapes, returned lots */
  cost: CostShares
  /** chances that the plan accepts, and that it rejects, under the belief */
  accepts: number
  rejects: number
  /**
   * cords tested on average under the belief, stopping at the rejection number and not before the first fetch has ended, without
   * the screening of a rejected lot
   */
  tests: number
}

/**
 * What one way protects. Every cord lets nothing through: conforming ones are kept, the others go back.
 *
 * @param fetch in a series the first picks that the standard's plan asks for; none is owed by a way that draws fewer
 */
export function assess(
  way: Alternative,
  lotSize: number,
  { tooMany, confidence, good, mostAcceptance = 1 }: Protection,
  fetch?: FetchedFirst,
): AssessedAlternative {
  const { plan, kind } = way
  const whole = kind === 'every-cord'
  const tooBad = { lotSize, nonconforming: tooMany }
  const inBadLot = outcomesOfLot(plan, tooBad)
  const acceptance = whole || cannotAccept(way, tooBad) ? 0 : Math.max(acceptanceOfLot(plan, tooBad), Number.MIN_VALUE)
  const risk = riskOf(confidence)
  const inGoodLot = outcomesOfLot(plan, { lotSize, nonconforming: good })
  return {
    ...way,
    testsAtMost: plan.stages.at(-1)?.sampleSize ?? 0,
    acceptance,
    rejection: whole ? 1 : sum(inBadLot.map((stage) => stage.rejected)),
    rejectionOfGood: whole ? 0 : sum(inGoodLot.map((stage) => stage.rejected)),
    acceptanceOfGood: whole || plan.stages.length === 0 ? 1 : sum(inGoodLot.map((stage) => stage.accepted)),
    testsInBadLot:
      testsOf(inBadLot) -
      unitsSparedInLot(plan, tooBad) +
      (fetch ? unitsOf(beyondVerdictInLot(plan, fetch, tooBad)) : 0),
    detectsFrom: whole ? 0 : worst(way, lotSize, risk),
    protects: !exceeds(acceptance, Math.min(risk, mostAcceptance)),
  }
}

/** The same way with what it costs on average under the model's belief. */
export function price(
  way: AssessedAlternative,
  economicModel: EconomicModel,
  fetch?: FetchedFirst,
): EvaluatedAlternative {
  const { plan, kind } = way
  const outcomes = outcomesOfPrior(plan, economicModel.prior)
  const spared = unitsSparedUnderPrior(plan, economicModel.prior)
  const added = fetch ? beyondVerdictUnderPrior(plan, fetch, economicModel.prior) : noneBeyond
  const shares = sharesOfOutcomes(economicModel, plan, outcomes)
  return {
    ...way,
    cost: withBeyond(withoutSpared(shares, spared, economicModel), added, economicModel),
    accepts: kind === 'no-test' ? 1 : sum(outcomes.map((stage) => stage.accepted)),
    rejects: sum(outcomes.map((stage) => stage.rejected)),
    tests: testsOf(outcomes) - spared + unitsOf(added),
  }
}

/** The tests that stopping spares are paid all the same where the rest of a rejected lot is tested. */
function withoutSpared(cost: CostShares, spared: number, { costs, afterRejection }: EconomicModel): CostShares {
  const less = afterRejection === 'return' ? costs.test * spared : 0
  return { ...cost, testing: cost.testing - less, total: cost.total - less }
}

const noneBeyond: BeyondVerdict = { afterAcceptance: 0, foundAfterAcceptance: 0, afterRejection: 0 }

/** Cents that the first fetch adds to the testing, and that it saves in escapes. Of a rejected lot that is screened its cords are tested all the same. */
function centsBeyond(
  added: BeyondVerdict,
  { costs, afterRejection }: BeyondModel,
): { testing: number; escapes: number } {
  return {
    testing: costs.test * (added.afterAcceptance + (afterRejection === 'return' ? added.afterRejection : 0)),
    escapes: costs.escape * added.foundAfterAcceptance,
  }
}

type BeyondModel = Pick<EconomicModel, 'costs' | 'afterRejection'>

/** Both together: what it costs on average. */
export function costBeyond(added: BeyondVerdict, economicModel: BeyondModel): number {
  const { testing, escapes } = centsBeyond(added, economicModel)
  return testing - escapes
}

function withBeyond(cost: CostShares, added: BeyondVerdict, economicModel: BeyondModel): CostShares {
  const { testing, escapes } = centsBeyond(added, economicModel)
  return {
    ...cost,
    testing: cost.testing + testing,
    escapes: cost.escapes - escapes,
    total: cost.total + testing - escapes,
  }
}

function unitsOf({ afterAcceptance, afterRejection }: BeyondVerdict): number {
  return afterAcceptance + afterRejection
}

/** Whether even the luckiest sample of the last stage holds too many to accept; short of that a chance is never none. */
function cannotAccept(
  { plan }: Alternative,
  { lotSize, nonconforming }: { lotSize: number; nonconforming: number },
): boolean {
  return (
    plan.stages.length > 0 &&
    plan.stages.every((stage) => stage.sampleSize + nonconforming - lotSize > stage.acceptanceNumber)
  )
}

function testsOf(outcomes: { sampleSize: number; reached: number }[]): number {
  let before = 0
  let tests = 0
  for (const { sampleSize, reached } of outcomes) {
    tests += (sampleSize - before) * reached
    before = sampleSize
  }
  return tests
}

/** The chance of acceptance never grows with the nonconforming cords of a lot. */
function worst({ plan }: Alternative, lotSize: number, risk: number): number {
  return greatestInteger(0, lotSize, (nonconforming) =>
    exceeds(acceptanceOfLot(plan, { lotSize, nonconforming }), risk),
  )
}

function sum(parts: number[]): number {
  return parts.reduce((total, part) => total + part, 0)
}
