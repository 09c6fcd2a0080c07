// Exact bounds after a plan that may stop early: they belong to the plan and its end, not to the count alone.
import { exceeds, openProbability, riskOf } from '../check.ts'
import { type Law, lawOfLot, lawOfProcess } from '../plans/law.ts'
import { checkStages } from '../plans/plan.ts'
import { greatestInteger, leastInteger } from '../search.ts'
import { chancesOfEnd, type End } from './ends.ts'
import { fractionWhere } from './fraction-where.ts'

/** How an inspection ended, and how sure a statement about the process must be. */
export type EndEvidence = End & { confidence: number }

/** How the inspection of a lot ended, and how sure a statement about the lot must be. */
export type EndEvidenceOfLot = EndEvidence & { lotSize: number }

/**
 * Exact upper confidence bound on the fraction nonconforming after a double, multiple, sequential or curtailed
 * inspection, all of the confidence on this side.
 *
 * The fraction at which the plan would end at this end or a lower one with probability 1 − confidence, the ends ordered
 * as in `chancesOfEnd`. It covers the true fraction in `confidence` of inspections or more; the plain bound need not:
 * after 50/50 (0, 2; 1, 2) ended with 1 in 100 it says 4.66 %, where the plan ends so low 11 % of the time, not 5 %.
 *
 * @param plan its stages; for an inspection stopped inside a stage the plan `curtailed` gives
 * @param stage number of the stage that ended it, from 1
 * @param found nonconforming units in all, a count that ends the plan at that stage
 * @param confidence one-sided confidence level, 0 < confidence < 1
 * @returns a fraction, 1 at the highest end
 * @throws RangeError that names the argument out of range
 *
 * Source: C. Jennison & B. W. Turnbull (1983), Technometrics 25, 49–58 (from memory); coverage enumerated in the test.
 *
 * @example upperBoundOfFractionAfter({ plan: { stages: [{ sampleSize: 80, acceptanceNumber: 0, rejectionNumber: 3 },
 *   { sampleSize: 160, acceptanceNumber: 3, rejectionNumber: 4 }] },
 *   stage: 2, found: 3, confidence: 0.95 }) // 0.04896: as one sample 0.04774
 */
export function upperBoundOfFractionAfter({ confidence, ...end }: EndEvidence): number {
  openProbability('confidence', confidence)
  const { thisOrLower, higher } = chancesOfEnd(end)

  const risk = riskOf(confidence)
  if (thisOrLower(lawOfProcess(1)) > risk) return 1
  return fractionWhere({ tail: ofProcess(thisOrLower), rest: ofProcess(higher), risk, confidence })
}

/**
 * Exact lower confidence bound on the fraction nonconforming after an inspection that may stop early.
 *
 * The fraction at which the plan would end at this end or a higher one with probability 1 − confidence; 0 at the lowest.
 * Far out among the early rejections it hardly moves with the count: a known weakness of the ordering.
 *
 * @throws RangeError that names the argument out of range
 */
export function lowerBoundOfFractionAfter({ confidence, ...end }: EndEvidence): number {
  openProbability('confidence', confidence)
  const { thisOrHigher, lower } = chancesOfEnd(end)

  const risk = riskOf(confidence)
  if (thisOrHigher(lawOfProcess(0)) > risk) return 0
  return fractionWhere({ tail: ofProcess(thisOrHigher), rest: ofProcess(lower), risk, confidence })
}

/**
 * Exact upper confidence bound on the nonconforming units in the lot, those found included, after an inspection that
 * may stop early: the largest number with which the plan would end at this end or a lower one with probability above
 * 1 − confidence.
 *
 * @returns whole units, at least `found`, at most N less the conforming ones seen
 * @throws RangeError that names the argument out of range, a stage above the lot among them
 */
export function upperBoundInLotAfter({ lotSize, confidence, ...end }: EndEvidenceOfLot): number {
  const { possible, risk } = checkedLot(lotSize, confidence, end)
  const { thisOrLower } = chancesOfEnd(end)

  return greatestInteger(end.found, possible, (nonconforming) =>
    exceeds(thisOrLower(lawOfLot({ lotSize, nonconforming })), risk),
  )
}

/**
 * Exact lower confidence bound on the nonconforming units in the lot, those found included, after an inspection that
 * may stop early: the smallest number with which the plan would end at this end or a higher one with probability above
 * 1 − confidence.
 *
 * @returns whole units, at least `found`
 * @throws RangeError that names the argument out of range, a stage above the lot among them
 */
export function lowerBoundInLotAfter({ lotSize, confidence, ...end }: EndEvidenceOfLot): number {
  const { possible, risk } = checkedLot(lotSize, confidence, end)
  const { thisOrHigher } = chancesOfEnd(end)

  return leastInteger(end.found, possible, (nonconforming) =>
    exceeds(thisOrHigher(lawOfLot({ lotSize, nonconforming })), risk),
  )
}

/** The risk, and the most nonconforming units that the lot can hold after what was seen. */
function checkedLot(lotSize: number, confidence: number, { plan, stage, found }: End) {
  openProbability('confidence', confidence)
  checkStages(plan, lotSize)
  const tested = plan.stages[stage - 1]?.sampleSize ?? 0
  return { possible: lotSize - tested + found, risk: riskOf(confidence) }
}

function ofProcess(chance: (law: Law) => number): (fraction: number) => number {
  return (fraction) => chance(lawOfProcess(fraction))
}
