// What a plan costs on average when testing stops with the unit that reaches the rejection number.
import { curtailed } from '../bounds/curtailed.ts'
import { checkStages, type Stage, type Stages } from '../plans/plan.ts'
import { type EconomicModel, sharesOfOutcomes } from './expected-cost.ts'
import { outcomesOfPrior } from './outcomes.ts'

/** Averages over lots whose number of nonconforming units is beta-binomial. */
export type CurtailedAverages = {
  /** units tested */
  averageSampleSize: number
  /** chance that the plan accepts */
  acceptance: number
  /** nonconforming units in accepted lots that nobody tested; those found are taken out */
  shipped: number
  /** cost where a rejected lot goes back */
  costReturned: number
  /** cost where the rest of a rejected lot is tested; early stopping changes nothing in it */
  costScreened: number
}

/**
 * Testing unit by unit that stops as soon as the running stage's rejection number is found, and never early to accept.
 * A stage that begins with so many tests none of its units.
 *
 * @param plan its stages, at most 100,000 units in all; none accept untested
 * @param economicModel lotSize, prior and costs as `expectedCost` takes them
 * @throws RangeError that names the argument, or the stage that is none
 *
 * Source: as `expectedCost`, of the plan looked at after every unit.
 *
 * @example curtailedUnderPrior({ stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }, { lotSize: 480,
 *   prior: { a: 1, b: 9 }, costs: { test: 2, escape: 150, rejection: 900 } }) // tests 17.04, costs 968.39 or 999.99
 */
export function curtailedUnderPrior(
  plan: Stages,
  economicModel: Omit<EconomicModel, 'afterRejection'>,
): CurtailedAverages {
  const { lotSize, prior, costs } = economicModel
  checkStages(plan, lotSize)
  const byUnit = rejectingBetweenStages(curtailed(plan, 'at rejection'))
  const outcomes = outcomesOfPrior(byUnit, prior)
  const shares = (of: Partial<EconomicModel>) =>
    sharesOfOutcomes({ ...economicModel, afterRejection: 'return', ...of }, byUnit, outcomes)
  const counted = shares({ costs: { test: 1, escape: 1, rejection: 0 } })
  const acceptance = plan.stages.length === 0 ? 1 : outcomes.reduce((sum, { accepted }) => sum + accepted, 0)
  return {
    averageSampleSize: counted.testing,
    acceptance: Math.min(1, acceptance),
    shipped: counted.escapes,
    costReturned: shares({ costs }).total,
    costScreened: shares({ costs, afterRejection: 'screen' }).total,
  }
}

/** Who ends a stage with the rejection number of the next one is rejected there and then, and not before: within it its own counts. */
function rejectingBetweenStages(plan: Stages): Stages {
  const stages: Stage[] = []
  let next = Number.POSITIVE_INFINITY
  for (const stage of plan.stages.toReversed()) {
    stages.push({
      ...stage,
      rejectionNumber: Math.max(stage.acceptanceNumber + 1, Math.min(stage.rejectionNumber, next)),
    })
    next = stage.rejectionNumber
  }
  return { stages: stages.reverse() }
}
