// The most that a lot can hold when testing stopped inside a later stage of its plan, in whatever order that stage was tested.
import { count, exceeds, openProbability, riskOf } from '../check.ts'
import { lawOfLot } from '../plans/law.ts'
import { outcomesUnder } from '../plans/measures.ts'
import { checkStages, type Stages } from '../plans/plan.ts'
import { greatestInteger } from '../search.ts'

/** Where testing stopped: `tested` and `found` are in all, over the stages so far. */
export type StopInStage = {
  plan: Stages
  stage: number
  lotSize: number
  tested: number
  found: number
  confidence: number
}

/**
 * Upper confidence bound on the number of nonconforming units in a lot, those found included, when the stages before
 * `stage` were tested in full and testing stopped inside it at its rejection number.
 *
 * Units of a stage are not tested in the order of their draw, so what was found of this one is no random part of it:
 * only the units themselves count. That the plan came so far does tell: the bound is the largest number with which it
 * would have been accepted before or have come to this stage with a chance above 1 − confidence, and never less than
 * what was found. It covers the true number in `confidence` of inspections or more.
 *
 * @param plan its stages
 * @param stage number of the stage in which testing stopped, from 1
 * @param lotSize units in the lot, at least the last sample size
 * @param tested units, more than the stages before tested and at most those of this stage
 * @param found nonconforming units among them, at least the rejection number of this stage
 * @param confidence one-sided confidence level, 0 < confidence < 1
 * @returns whole units, from `found` to lotSize − tested + found; in the first stage the latter
 * @throws RangeError that names the argument out of range, or the stage that is none
 *
 * Source: the chance that the plan comes no further falls with the number nonconforming, so the numbers not excluded are
 * an interval (Neyman's construction, from memory); values by exact fractions stand with the golden numbers.
 *
 * @example upperBoundAfterStopInStage({ plan: { stages: [{ sampleSize: 122, acceptanceNumber: 0, rejectionNumber: 2 },
 *   { sampleSize: 219, acceptanceNumber: 1, rejectionNumber: 2 }] }, stage: 2, lotSize: 360, tested: 172, found: 2,
 *   confidence: 0.95 }) // 11
 */
export function upperBoundAfterStopInStage(stop: StopInStage): number {
  checkStop(stop)

  const { plan, stage, lotSize, tested, found, confidence } = stop
  const risk = riskOf(confidence)
  const soFar = { stages: plan.stages.slice(0, stage) }
  const acceptedBeforeOrHere = (nonconforming: number) => {
    const outcomes = outcomesUnder(soFar, lawOfLot({ lotSize, nonconforming }))
    return outcomes.reduce(
      (sum, { accepted }, index) => (index < stage - 1 ? sum + accepted : sum),
      outcomes.at(-1)!.reached,
    )
  }
  const highest = greatestInteger(0, lotSize, (nonconforming) => exceeds(acceptedBeforeOrHere(nonconforming), risk))
  return Math.max(found, Math.min(highest, lotSize - (tested - found)))
}

function checkStop({ plan, stage, lotSize, tested, found, confidence }: StopInStage): void {
  count('lotSize', lotSize, 1)
  checkStages(plan, lotSize)
  count('stage', stage, 1, plan.stages.length)
  const { sampleSize, rejectionNumber } = plan.stages[stage - 1]!
  count('tested', tested, (plan.stages[stage - 2]?.sampleSize ?? 0) + 1, sampleSize)
  count('found', found, rejectionNumber, tested)
  openProbability('confidence', confidence)
}
