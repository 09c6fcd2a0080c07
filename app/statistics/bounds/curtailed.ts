// A plan looked at after every unit, as it is carried out when testing stops as soon as the verdict is certain.
import { count } from '../check.ts'
import { checkStages, type Stage, type Stages } from '../plans/plan.ts'

/**
 * When testing stops inside a stage: at its rejection number only, or also as soon as it is bound to accept.
 */
export type Curtailment = 'at rejection' | 'at either verdict'

/**
 * The stages of a plan, unit by unit: the same verdicts, reached as early as they are certain.
 *
 * After each unit the running stage rejects once its rejection number is found; with 'at either verdict' it accepts
 * once it would even if all of its units still to come were nonconforming. For the bounds of `stopped.ts`: stage
 * number m of the result is the m-th unit.
 *
 * @param plan its stages, at most 100,000 units in all
 * @param curtailment when testing stops
 * @throws RangeError that names the stage that is none, or is too large
 *
 * @example curtailed({ stages: [{ sampleSize: 3, acceptanceNumber: 1, rejectionNumber: 2 }] }, 'at rejection')
 *   // after 1 and 2 units acceptance number −1, after 3 units 1; rejection number 2 throughout
 */
export function curtailed(plan: Stages, curtailment: Curtailment): Stages {
  checkStages(plan)
  count('sampleSize of the last stage', plan.stages.at(-1)?.sampleSize ?? 0, 0, 100_000)

  let tested = 0
  const stages: Stage[] = []
  for (const { sampleSize, acceptanceNumber, rejectionNumber } of plan.stages) {
    for (tested++; tested < sampleSize; tested++) {
      const early = curtailment === 'at rejection' ? -1 : Math.max(-1, acceptanceNumber - (sampleSize - tested))
      stages.push({ sampleSize: tested, acceptanceNumber: early, rejectionNumber })
    }
    tested = sampleSize
    stages.push({ sampleSize, acceptanceNumber, rejectionNumber })
  }
  return { stages }
}
