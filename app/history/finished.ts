// Finished lots: those whose plan has ended, complete or at its rejection number. What a supplier's past says rests on them alone.
import type { CountedLot } from './counted-lots.ts'

export type FinishedLot = {
  lotId: number
  size: number
  /** cords of the stage at which the plan ended */
  sampleSize: number
  tested: number
  found: number
  /** where the rule of testing is one number alone: testing stops with so many found; undefined: nothing stops it, or several stages do */
  rejectionNumber: number | undefined
  /** the plan looks at its sample more than once, so that its end has no rule of one number */
  staged: boolean
  /** when it was decided; undefined while it waits for that */
  at: Date | undefined
}

/**
 * The finished ones, in the order given. A resubmitted lot is left out: what a sorting left of a lot is not what the supplier's process
 * makes, and the lot itself is counted already. Of each its sample counts as far as it was tested, never what a screening tested besides:
 * that is tested because the sample failed.
 */
export function finishedLots(counted: readonly CountedLot[]): FinishedLot[] {
  return counted.flatMap((lot) => {
    const sampleSize = endOfPlan(lot)
    if (sampleSize === undefined || lot.resubmitted) return []
    const { lotId, size, sample, stages, decided } = lot
    return [
      {
        lotId,
        size,
        sampleSize,
        tested: sample.recorded,
        found: sample.found,
        rejectionNumber: ruleOf(lot),
        staged: stages.length > 1,
        at: decided?.at,
      },
    ]
  })
}

/** Cords of the stage at which the counts end the plan; undefined where they do not. */
function endOfPlan({ stages, sample: { recorded, found } }: CountedLot): number | undefined {
  const end = stages.find(
    ({ sampleSize, acceptanceNumber, rejectionNumber }) =>
      recorded <= sampleSize && (found >= rejectionNumber || (recorded === sampleSize && found <= acceptanceNumber)),
  )
  return end?.sampleSize
}

/** Who went on after the rejection number, beyond it or to the end of the sample, did not stop by it: such a lot counts as one that nothing stops. */
function ruleOf({ stages, sample, planKind }: CountedLot): number | undefined {
  const [only, ...more] = stages
  if (!only || more.length > 0 || planKind === 'every-cord') return undefined
  const wentOn =
    sample.found > only.rejectionNumber ||
    (sample.found === only.rejectionNumber && sample.recorded === only.sampleSize)
  return wentOn ? undefined : only.rejectionNumber
}
