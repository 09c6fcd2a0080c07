// How far the testing of a frozen plan has come, stage by stage, and what the plan then says.

import type { Stage } from '../../statistics/plans/plan.ts'
import type { Verdict } from '../../terms/lot.ts'

/** Cords that count towards the sample, and how many of them do not conform. */
export type SampleCount = { recorded: number; found: number }

/** Where the plan stands. All counts are of this stage and those before it together. */
export type PlanProgress = SampleCount & {
  /** number of the stage that runs, or that brought the verdict; from 1 */
  stage: number
  /** cords of this stage that are not recorded: above 0 after a verdict where testing stopped at the rejection number */
  left: number
  verdict: Verdict | undefined
}

/**
 * Goes through the stages: one rejects as soon as its rejection number is found among its cords and those before, and
 * accepts, or hands on to the next, only when all of them are recorded. What is recorded of later stages has no say.
 *
 * @param counts of each stage alone, in order; those that are missing are not begun
 * @example progressOf([{ sampleSize: 50, acceptanceNumber: 1, rejectionNumber: 2 }], [{ recorded: 12, found: 2 }])
 *   // stage 1, 12 recorded, 2 found, 38 left, verdict 'reject'
 */
export function progressOf(stages: readonly Stage[], counts: readonly SampleCount[]): PlanProgress {
  let recorded = 0
  let found = 0
  for (const [index, { sampleSize, acceptanceNumber, rejectionNumber }] of stages.entries()) {
    recorded += counts[index]?.recorded ?? 0
    found += counts[index]?.found ?? 0
    const reached = { stage: index + 1, recorded, found, left: sampleSize - recorded }
    if (found >= rejectionNumber) return { ...reached, verdict: 'reject' }
    if (reached.left > 0) return { ...reached, verdict: undefined }
    if (found <= acceptanceNumber) return { ...reached, verdict: 'accept' }
  }
  throw new Error('a plan decides at its last stage')
}

/**
 * The same from the counts that a verdict rested on, of all its stages together: the stage at which the plan ends so.
 *
 * @param count as `progressOf` gave it with a verdict
 */
export function terminalStage(stages: readonly Stage[], { recorded, found }: SampleCount): PlanProgress {
  for (const [index, { sampleSize, acceptanceNumber, rejectionNumber }] of stages.entries()) {
    const reached = { stage: index + 1, recorded, found, left: sampleSize - recorded }
    if (recorded > sampleSize) continue
    if (found >= rejectionNumber) return { ...reached, verdict: 'reject' }
    if (recorded === sampleSize && found <= acceptanceNumber) return { ...reached, verdict: 'accept' }
  }
  throw new Error(`no stage of the plan ends with ${found} found in ${recorded}`)
}
