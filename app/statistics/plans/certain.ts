// A plan that rejects as soon as no later stage could still accept: the same verdicts, reached with fewer units.
import type { Stage, Stages } from './plan.ts'

/**
 * The plan with each rejection number at most one above the greatest acceptance number that is still ahead, and without
 * the stages that then are never reached.
 *
 * Who has found more than any stage to come may accept is bound to be rejected; a sequential plan on Wald's lines would
 * go on testing, because its lines run past the acceptance number that decides at the truncation. The chance of
 * acceptance is that of the plan itself, for every lot and process; the average sample size is no larger.
 *
 * @example rejectingWhenCertain({ stages: [{ sampleSize: 1, acceptanceNumber: -1, rejectionNumber: 2 },
 *   { sampleSize: 2, acceptanceNumber: 0, rejectionNumber: 1 }] }) // 1: the first stage rejects one already
 */
export function rejectingWhenCertain<P extends Stages>(plan: P): P {
  let ahead = -1
  const stages: Stage[] = []
  for (const stage of plan.stages.toReversed()) {
    ahead = Math.max(ahead, stage.acceptanceNumber)
    stages.push({ ...stage, rejectionNumber: Math.min(stage.rejectionNumber, ahead + 1) })
  }
  stages.reverse()
  const decides = stages.findIndex(({ acceptanceNumber, rejectionNumber }) => rejectionNumber === acceptanceNumber + 1)
  return { ...plan, stages: stages.slice(0, decides + 1) }
}
