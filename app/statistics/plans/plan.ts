// What a plan by attributes is: a list of stages, whatever its kind, so that one evaluation serves all kinds.
import { count } from '../check.ts'

/**
 * One look at the sample. All three numbers are cumulative over the stages so far: after the stage, `found` at most
 * `acceptanceNumber` accepts, `found` of at least `rejectionNumber` rejects, anything between goes on. An
 * acceptance number of −1 says that this stage cannot accept.
 */
export type Stage = {
  readonly sampleSize: number
  readonly acceptanceNumber: number
  readonly rejectionNumber: number
}

/** All that evaluation reads of a plan. No stages: every lot is accepted untested. */
export type Stages = { readonly stages: readonly Stage[] }

/** A plan by attributes and the kind that made it; the kinds are listed in kinds.ts. */
export type Plan = Stages & { readonly kind: string }

/** A quality of the lot in hand and the chance of the wrong verdict that is tolerated there. */
export type LotRisk = { readonly nonconforming: number; readonly risk: number }

/** A quality of the process and the chance of the wrong verdict that is tolerated there. */
export type ProcessRisk = { readonly fraction: number; readonly risk: number }

/**
 * Refuses what is not a plan, by a RangeError that names the stage: sample sizes are whole and do not fall, nor exceed
 * the lot where there is one; the rejection number is above the acceptance number, and next to it in the last stage.
 */
export function checkStages({ stages }: Stages, lotSize = Number.MAX_SAFE_INTEGER): void {
  let tested = 0
  for (let index = 0; index < stages.length; index++) {
    const stage = stages[index]!
    const last = index === stages.length - 1
    if (!isStage(stage, tested, lotSize, last)) refuseStage(stage, index + 1, { tested, lotSize, last })
    tested = stage.sampleSize
  }
}

/** Without a word for each number: a sequential plan of ten thousand stages is checked at every question. */
function isStage(stage: Stage, tested: number, lotSize: number, last: boolean): boolean {
  const { sampleSize, acceptanceNumber, rejectionNumber } = stage
  return (
    Number.isSafeInteger(sampleSize) &&
    Number.isSafeInteger(acceptanceNumber) &&
    Number.isSafeInteger(rejectionNumber) &&
    sampleSize >= tested &&
    sampleSize <= lotSize &&
    acceptanceNumber >= -1 &&
    (last ? rejectionNumber === acceptanceNumber + 1 : rejectionNumber > acceptanceNumber)
  )
}

type Surroundings = { tested: number; lotSize: number; last: boolean }

function refuseStage(stage: Stage, number: number, { tested, lotSize, last }: Surroundings): void {
  const { sampleSize, acceptanceNumber, rejectionNumber } = stage
  const most = last ? acceptanceNumber + 1 : Number.MAX_SAFE_INTEGER
  count(`sampleSize of stage ${number}`, sampleSize, tested, lotSize)
  count(`acceptanceNumber of stage ${number}`, acceptanceNumber, -1)
  count(`rejectionNumber of stage ${number}`, rejectionNumber, acceptanceNumber + 1, most)
}
