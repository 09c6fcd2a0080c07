// What any plan proves of the lot when it has ended, finished or stopped at its rejection number, in whatever order it was tested.
import { count } from '../check.ts'
import type { Stages } from '../plans/plan.ts'
import { lowerBoundInLot, upperBoundInLot } from './lot.ts'
import { lowerBoundInLotAfter, upperBoundInLotAfter } from './stopped.ts'
import { upperBoundAfterStopInStage } from './stopped-in-stage.ts'

/** Where a plan ended: `tested` and `found` are in all, over the stages up to `stage` (from 1). */
export type PlanEnd = {
  plan: Stages
  stage: number
  lotSize: number
  tested: number
  found: number
  confidence: number
}

/**
 * Exact one-sided bounds on the nonconforming units in the lot, those found included, each at the whole confidence.
 *
 * Units are tested in the order in which they lie, not in that of the draw, so those before a stop are no random sample of
 * the lot; the sample as a whole is. Units that a stop left out count as nonconforming in the upper bound and as conforming
 * in the lower one: neither is beyond that of the finished sample, so both cover at least as often. In a later stage the
 * upper bound is capped by what it tells that the plan came so far (`upperBoundAfterStopInStage`).
 *
 * @param plan its stages
 * @param stage number of the stage that ended it, from 1
 * @param lotSize units in the lot, at least the last sample size
 * @param tested units, more than the stages before tested and at most those of this stage
 * @param found nonconforming units among them; where units were left out, at least this stage's rejection number
 * @param confidence one-sided confidence level, 0 < confidence < 1
 * @returns whole units: `atLeast` from `found`, `atMost` up to lotSize − tested + found
 * @throws RangeError that names the argument out of range
 *
 * Source: as `upperBoundInLot`, `upperBoundInLotAfter` and `upperBoundAfterStopInStage`; coverage by enumeration in the tests.
 *
 * @example boundsInLotAfterPlan({ plan: { stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }, stage: 1,
 *   lotSize: 480, tested: 48, found: 0, confidence: 0.95 }) // at least 0, at most 27
 */
export function boundsInLotAfterPlan(ended: PlanEnd): { atLeast: number; atMost: number } {
  const { plan, stage, lotSize, tested, found, confidence } = ended
  count('stage', stage, 1, plan.stages.length)
  const { sampleSize } = plan.stages[stage - 1]!
  count('tested', tested, 0, sampleSize)
  const left = sampleSize - tested
  if (plan.stages.length === 1) {
    const sample = { lotSize, sampleSize, confidence }
    return {
      atLeast: lowerBoundInLot({ ...sample, found }),
      atMost: upperBoundInLot({ ...sample, found: found + left }),
    }
  }
  const end = { plan, stage, lotSize, confidence }
  const capped = stage > 1 && left > 0 ? upperBoundAfterStopInStage(ended) : lotSize
  const highest = Math.min(upperBoundInLotAfter({ ...end, found: found + left }), capped)
  return {
    atLeast: lowerBoundInLotAfter({ ...end, found }),
    atMost: Math.max(found, Math.min(highest, lotSize - tested + found)),
  }
}
