// The arithmetic of the coverage: what each sample had predicted, and how often it was so.
import type { Task } from '../kit/task.ts'
import { type Prediction, predictionOf } from '../lots/rules/prediction.ts'
import type { SampleCount } from '../lots/rules/progress.ts'
import { clopperPearsonInterval, type Interval } from '../statistics/bounds/fraction.ts'
import type { Stage } from '../statistics/plans/plan.ts'

export type PredictedLot = Prediction & { lotId: number; item: string; size: number }

export type CoverageGroup = {
  /** the latest first */
  lots: PredictedLot[]
  covered: number
  /** share covered, with Clopper and Pearson's interval at 95 %; undefined where there is no lot */
  share: { fraction: number; interval: Interval } | undefined
}

/** A lot known whole, with the sample that is held against the rest of it. */
export type KnownSample = {
  lotId: number
  item: string
  size: number
  stages: readonly Stage[]
  count: SampleCount
  foundInAll: number
}

export type CoverageFacts = { afterScreening: KnownSample[]; byPlan: KnownSample[] }
export type CoverageGroups = Record<keyof CoverageFacts, CoverageGroup>

export const coverageTask: Task<CoverageFacts, CoverageGroups> = {
  name: 'coverage',
  work: ({ afterScreening, byPlan }) => ({
    afterScreening: groupOf(afterScreening.map(calibrated)),
    byPlan: groupOf(byPlan.map(calibrated)),
  }),
}

function calibrated({ lotId, item, size, stages, count, foundInAll }: KnownSample): PredictedLot {
  const plan = { lotSize: size, sampleSize: stages.at(-1)?.sampleSize ?? 0, stages }
  return { lotId, item, size, ...predictionOf(plan, count, foundInAll) }
}

function groupOf(lots: PredictedLot[]): CoverageGroup {
  const covered = lots.filter((lot) => lot.covered).length
  if (lots.length === 0) return { lots, covered, share: undefined }
  const interval = clopperPearsonInterval({ sampleSize: lots.length, found: covered, confidence: 0.95 })
  return { lots, covered, share: { fraction: covered / lots.length, interval } }
}
