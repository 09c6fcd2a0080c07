// What the recorded sample proves of the lot and of the cords nobody tested.
import { boundsInLotAfterPlan } from '../../statistics/bounds/after-plan.ts'
import { lowerBoundInLot, upperBoundInLot } from '../../statistics/bounds/lot.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import type { PlanProgress, SampleCount } from './progress.ts'

/** Counts are cords; the bounds are one-sided, each at the confidence named. */
export type LotBounds = {
  confidence: number
  lotSize: number
  recorded: number
  found: number
  /** sample cords not recorded, of the stage that brought the verdict: above 0 after a stop at the rejection number */
  leftOfSample: number
  /** set where the plan has several stages: the one that brought the verdict, from 1 */
  stage?: number | undefined
  /** cords of the lot that do not count as recorded */
  untested: number
  /** most cords of the lot that could be nonconforming, those found included */
  upperInLot: number
  /** fewest cords of the lot that do not conform, those found included */
  lowerInLot: number
  /** most of the untested cords that could be nonconforming */
  upperInUntested: number
  /** found ÷ recorded carried over to the untested cords; undefined where it would be biased: after a stop, and after several stages */
  expectedInUntested: number | undefined
}

const confidence = 0.95

/**
 * Exact bounds from a sample drawn at random, of which testing may have stopped at the rejection number.
 *
 * After a stop the upper bound takes every sample cord that was left out as nonconforming, and the lower bound as
 * conforming. Cords are tested carton after carton, not in the order drawn, so the ones recorded before a stop come from
 * the first cartons and are no random sample of the lot; the sample as a whole is. These bounds are never beyond those
 * of the finished sample, and so they cover at least as often, wherever the nonconforming cords lie and wherever one stops.
 * (The bound of the recorded cords alone would not: the test shows a lot in which it covers 1 time in 2.)
 *
 * @param found nonconforming among the recorded cords
 * @example boundsOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 }).upperInUntested // 27
 */
export function boundsOf(sample: { lotSize: number; sampleSize: number; recorded: number; found: number }): LotBounds {
  const { lotSize, sampleSize, recorded, found } = sample
  const leftOfSample = sampleSize - recorded
  const untested = lotSize - recorded
  const upperInLot = upperBoundInLot({ lotSize, sampleSize, found: found + leftOfSample, confidence })
  return {
    confidence,
    lotSize,
    recorded,
    found,
    leftOfSample,
    untested,
    upperInLot,
    lowerInLot: lowerBoundInLot({ lotSize, sampleSize, found, confidence }),
    upperInUntested: upperInLot - found,
    expectedInUntested: leftOfSample === 0 ? (found / recorded) * untested : undefined,
  }
}

/**
 * The same for any frozen plan that has a verdict. A plan of several stages ends where its counts lead it, so its bounds
 * belong to the plan and its end: who stopped after a first sample because it was clean may not read it as if it had been
 * the only one. As above, the cords that a stop left out of the last stage are taken as nonconforming in the upper bound
 * and as conforming in the lower one; the ends of a stage are in the order of their counts, so neither gets too narrow.
 *
 * There is no estimate: found ÷ recorded is biased by when the plan stops, and the unbiased one is, far out among the
 * rejections, below what was found.
 *
 * @param plan its stages, and the lot's size
 * @param reached where the plan ended, with a verdict
 * @param known all cords of the sample that are recorded; more than `reached` only where a correction let the plan end
 *   earlier than it was tested. They widen no bound, and what they showed is true all the same.
 */
export function boundsAfter(
  { lotSize, stages }: { lotSize: number; stages: readonly Stage[] },
  reached: PlanProgress,
  known: SampleCount = reached,
): LotBounds {
  const { stage, recorded, found, left } = reached
  if (stages.length === 1) return boundsOf({ lotSize, sampleSize: recorded + left, recorded, found })
  const { atLeast, atMost } = boundsInLotAfterPlan({
    plan: { stages },
    stage,
    lotSize,
    tested: recorded,
    found,
    confidence,
  })
  const upperInLot = Math.max(known.found, Math.min(atMost, lotSize - known.recorded + known.found))
  return {
    confidence,
    lotSize,
    recorded: known.recorded,
    found: known.found,
    leftOfSample: left,
    stage,
    untested: lotSize - known.recorded,
    upperInLot,
    lowerInLot: Math.max(known.found, atLeast),
    upperInUntested: upperInLot - known.found,
    expectedInUntested: undefined,
  }
}
