// What a sample had predicted of the cords it left untested, against what testing them all then showed.
import type { Stage } from '../../statistics/plans/plan.ts'
import { boundsAfter } from './bounds.ts'
import { type SampleCount, terminalStage } from './progress.ts'

export type Prediction = {
  sampleSize: number
  /** cords recorded and found not conforming when the prediction stood */
  recorded: number
  found: number
  /** cords that were still to be tested, and how many of them were to be expected not to conform: a 90 % interval, exact */
  remainder: number
  lower: number
  upper: number
  /** how many of them did not conform */
  observed: number
  covered: boolean
}

/**
 * Two one-sided bounds at 95 % each, the same that the lot's page shows: together 90 %.
 *
 * @param plan of a lot of `lotSize`
 * @param count what its verdict rested on when the prediction stood
 * @param foundInAll nonconforming cords once every cord was recorded
 */
export function predictionOf(
  plan: { lotSize: number; sampleSize: number; stages: readonly Stage[] },
  { recorded, found }: SampleCount,
  foundInAll: number,
): Prediction {
  const { untested, lowerInLot, upperInUntested } = boundsAfter(plan, terminalStage(plan.stages, { recorded, found }))
  const [lower, upper] = [lowerInLot - found, upperInUntested]
  const observed = foundInAll - found
  return {
    sampleSize: plan.sampleSize,
    recorded,
    found,
    remainder: untested,
    lower,
    upper,
    observed,
    covered: lower <= observed && observed <= upper,
  }
}
