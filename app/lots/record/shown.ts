// What the recorded cords of a lot come to, as its pages show it.

import { boundsAfter, type LotBounds } from '../rules/bounds.ts'
import { type FirstFetch, firstFetchOf } from '../rules/first-fetch.ts'
import { type Prediction, predictionOf } from '../rules/prediction.ts'
import type { PlanProgress, SampleCount } from '../rules/progress.ts'
import type { BothAnswers } from '../rules/undecided.ts'
import { bothAnswers, testingOf } from '../rules/undecided.ts'
import { type DrawIntegrity, drawIntegrityOf } from './integrity.ts'
import { type NotHad, undecidedByStage } from './not-had.ts'
import { entriesOf, firstFetchCount, planOnRecount, type Tally } from './tally.ts'
import type { PlanRow } from './testing.ts'

export type RecordedCords = {
  /** cords that count towards the plan's sample */
  sampleRecorded: number
  sampleNonconforming: number
  /** the other cords, while a lot is screened and afterwards */
  restRecorded: number
  restNonconforming: number
  /** cords not yet recorded, of the running stage of the sample or of the whole lot while it is screened */
  toDo: number
}

export type Shown = {
  progress: RecordedCords
  drawIntegrity: DrawIntegrity
  /** cords of the lot, by the latest recount where there was one: `size` stays as it was counted at the dock */
  cords: number
  /** the stage whose cords are tested, while the sample is */
  testedStage: number | undefined
  /** undefined before there is a verdict */
  bounds: LotBounds | undefined
  /** undefined where no cord is undecided or was replaced */
  bothAnswers: BothAnswers | undefined
  /** once a screening is through: what its sample had predicted, and what came out; undefined where a cord is not known */
  prediction: Prediction | undefined
}

type Read = {
  plan: PlanRow | undefined
  tally: Tally
  counts: SampleCount[]
  notHad: NotHad
  planProgress: PlanProgress | undefined
}

/** The first fetch of a lot as far as it is tested; undefined where none is frozen with it. */
export function fetchOf(plan: PlanRow, tally: Tally, { undecided }: NotHad): FirstFetch | undefined {
  const picks = undecided.map(({ pick }) => pick)
  return firstFetchOf(planOnRecount(plan, tally), firstFetchCount(tally), picks)
}

/** `screened`: the decision that had every cord tested; `size`: places of the lot. */
export function shownBy(
  { plan: frozen, tally, counts, notHad, planProgress }: Read,
  lot: { screened: SampleCount | undefined; size: number; firstFetch: FirstFetch | undefined },
): Shown {
  const { screened, size, firstFetch } = lot
  const { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming } = tally
  const plan = frozen && planOnRecount(frozen, tally)
  const sample = { counts, undecided: undecidedByStage(notHad.undecided), replaced: notHad.replaced }
  const testing = plan && testingOf(plan.stages, sample)
  const toFetch = firstFetch?.open ? (firstFetch.left ?? 0) - firstFetch.undecided : 0
  const toDo = screened ? size - entriesOf(tally) : Math.max(testing?.toDo ?? 0, toFetch)
  const drawIntegrity = drawIntegrityOf(tally)
  const whole = toDo === 0 && drawIntegrity.kind === 'kept'
  const known = { recorded: sampleRecorded, found: sampleNonconforming }
  return {
    progress: { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, toDo },
    drawIntegrity,
    cords: tally.recountedSize ?? size,
    testedStage: testing?.stage,
    bounds: plan && planProgress?.verdict ? boundsAfter(plan, planProgress, known) : undefined,
    bothAnswers: plan && bothAnswers(plan, sample),
    prediction:
      plan && screened && whole ? predictionOf(plan, screened, sampleNonconforming + restNonconforming) : undefined,
  }
}
