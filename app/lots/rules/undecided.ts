// What holds while drawn cords are undecided: how far testing may go on, and what is proven for both answers they can still give.
import { boundsWithUndecided } from '../../statistics/bounds/undecided.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import { boundsAfter } from './bounds.ts'
import { type PlanProgress, progressOf, type SampleCount } from './progress.ts'

/** The sample by stage: what counts, and what is gone or spoiled here. */
export type SampleInStages = {
  counts: readonly SampleCount[]
  /** undecided cords of each stage alone */
  undecided: readonly number[]
  /** cords of each stage alone in whose place a reserve counts */
  replaced: readonly number[]
}

/** Most nonconforming cords of the lot for each answer; undefined where the plan would go on testing after that answer. */
export type BothAnswers = {
  confidence: number
  undecided: number
  replaced: number
  ifConforming: number | undefined
  ifNonconforming: number | undefined
}

const confidence = 0.95

/**
 * Where testing goes on. An undecided cord stops nothing: as long as the plan would go on after one of its two answers, so does the bench.
 * The plan's own word is `progressOf`, which counts no undecided cord: it never accepts while one is open.
 *
 * @returns the stage whose cords are tested, and how many of them are left besides the undecided ones
 * @example testingOf([{ sampleSize: 216, acceptanceNumber: 0, rejectionNumber: 1 }],
 *   { counts: [{ recorded: 100, found: 0 }], undecided: [1], replaced: [] }) // stage 1, 115 to do
 */
export function testingOf(stages: readonly Stage[], sample: SampleInStages): { stage: number; toDo: number } {
  const reached = progressOf(stages, sample.counts)
  if (reached.verdict) return { stage: reached.stage, toDo: reached.left - upTo(reached.stage, sample.undecided) }
  const ruled = { ...sample, replaced: [] } // a reserve has taken these places for good
  const goingOn = [reachedIf(stages, ruled, false), reachedIf(stages, ruled, true)]
    .filter(({ verdict }) => verdict === undefined)
    .sort((one, other) => other.stage - one.stage)[0]
  return goingOn ? { stage: goingOn.stage, toDo: goingOn.left } : { stage: reached.stage, toDo: 0 }
}

/**
 * Bounds for both answers of cords that are undecided, or in whose place a reserve counts: once as if they conformed, once as if they did
 * not. Whichever is true, its bound holds as that of the drawn sample does. That of the reserve holds if the cords went for a reason that
 * has nothing to do with what they were.
 *
 * @param plan its stages, and the number of cords of the lot
 * @returns undefined where no cord is undecided or replaced
 * @example bothAnswers({ lotSize: 480, stages: [{ sampleSize: 216, acceptanceNumber: 0, rejectionNumber: 1 }] },
 *   { counts: [{ recorded: 215, found: 0 }], undecided: [1], replaced: [] }) // 4 and 8
 */
export function bothAnswers(
  plan: { lotSize: number; stages: readonly Stage[] },
  sample: SampleInStages,
): BothAnswers | undefined {
  const [undecided, replaced] = [sum(sample.undecided), sum(sample.replaced)]
  if (undecided + replaced === 0) return undefined
  const none = { ifConforming: undefined, ifNonconforming: undefined }
  if (testingOf(plan.stages, sample).toDo > 0 && !progressOf(plan.stages, sample.counts).verdict)
    return { confidence, undecided, replaced, ...none }
  return { confidence, undecided, replaced, ...(plan.stages.length === 1 ? inOneStage : inStages)(plan, sample) }
}

/** After a stop the cords that nobody tested are taken as nonconforming, as in the lot's own bound. */
function inOneStage(plan: { lotSize: number; stages: readonly Stage[] }, sample: SampleInStages) {
  const { recorded, found, left } = progressOf(plan.stages, sample.counts)
  const [undecided, replaced] = [sum(sample.undecided), sum(sample.replaced)]
  const [sampleSize, known] = [recorded + left, found + left - undecided]
  const open = Math.min(undecided + replaced, sampleSize - known)
  return boundsWithUndecided({ lotSize: plan.lotSize, sampleSize, found: known, undecided: open, confidence })
}

function inStages(plan: { lotSize: number; stages: readonly Stage[] }, sample: SampleInStages) {
  const bound = (nonconforming: boolean) => {
    const reached = reachedIf(plan.stages, sample, nonconforming)
    return reached.verdict && boundsAfter(plan, reached).upperInLot
  }
  return { ifConforming: bound(false), ifNonconforming: bound(true) }
}

/** How far the plan would have come, had all of them given one answer. */
function reachedIf(stages: readonly Stage[], sample: SampleInStages, nonconforming: boolean): PlanProgress {
  const answered = stages.map((_, index) => {
    const { recorded, found } = sample.counts[index] ?? { recorded: 0, found: 0 }
    const [open, replaced] = [sample.undecided[index] ?? 0, sample.replaced[index] ?? 0]
    const all = recorded + open
    return { recorded: all, found: nonconforming ? Math.min(all, found + open + replaced) : found }
  })
  return progressOf(stages, answered)
}

function upTo(stage: number, counts: readonly number[]): number {
  return sum(counts.slice(0, stage))
}

function sum(counts: readonly number[]): number {
  return counts.reduce((all, each) => all + (each ?? 0), 0)
}
