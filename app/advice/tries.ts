// How often a resubmitted lot passes in the end, had nothing been sorted out of it: under the plan that rejected it, and under the one now.
import type { FormerPlan } from '../lots/record/former.ts'
import { acceptanceOfLot } from '../statistics/plans/measures.ts'
import { acceptanceInTries } from '../statistics/plans/tries.ts'
import type { AssessedAlternative } from './evaluate.ts'

/** Chances that a lot with as many nonconforming cords as are too many is accepted in one, two and three tries by the same plan. */
export type Tries = {
  plan: 'before' | 'now'
  lotSize: number
  tooMany: number
  sampleSize: number
  /** undefined where the plan has several stages */
  acceptanceNumber: number | undefined
  passes: readonly [number, number, number]
}

/** The lot now, and the plan that rejected it; undefined where it was not here before. */
type Resubmitted = { size: number; terms: { tooMany: number }; before: FormerPlan | undefined }

/** None for a lot that was not resubmitted. Every cord tested lets no such lot through: it is left out. */
export function triesOf(
  { size: lotSize, terms: { tooMany }, before }: Resubmitted,
  chosen: AssessedAlternative,
): Tries[] {
  if (!before) return []
  const now = { kind: chosen.kind, lotSize, tooMany, stages: chosen.plan.stages }
  return [
    { plan: 'before' as const, ...before },
    { plan: 'now' as const, ...now },
  ].flatMap(({ plan, kind, lotSize, tooMany, stages }) => {
    const last = stages.at(-1)
    if (!last || kind === 'every-cord') return []
    const acceptance = acceptanceOfLot({ stages }, { lotSize, nonconforming: tooMany })
    const passes = [acceptance, acceptanceInTries(acceptance, 2), acceptanceInTries(acceptance, 3)] as const
    const acceptanceNumber = stages.length === 1 ? last.acceptanceNumber : undefined
    return [{ plan, lotSize, tooMany, sampleSize: last.sampleSize, acceptanceNumber, passes }]
  })
}
