// How often a resubmitted lot passes in the end, had nothing been sorted out of it: under the plan that rejected it, and under the one now.
import type { FormerPlan } from '../lots/record/former.ts'
import { acceptanceOfLot } from '../statistics/plans/measures.ts'
import { acceptanceInTries } from '../statistics/plans/tries.ts'
import type { AssessedAlternative } from './evaluate.ts'

/**
 * Chances that a lot with as many nonconforming cords as are too many is accepted in one, two and three tries by the plan that rejected it, and
 * in one by the plan now, as a lot is resubmitted once; both: by the one and, where it rejects, by the other.
 */
export type Tries = {
  plan: 'before' | 'now' | 'both'
  lotSize: number
  tooMany: number
  sampleSize: number
  /** undefined where the plan has several stages */
  acceptanceNumber: number | undefined
  /** in one, two and three tries; undefined where there is no such try */
  passes: readonly (number | undefined)[]
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
  const rows = [
    { plan: 'before' as const, ...before },
    { plan: 'now' as const, ...now },
  ].flatMap(({ plan, kind, lotSize, tooMany, stages }) => {
    const last = stages.at(-1)
    if (!last || kind === 'every-cord') return []
    const acceptance = acceptanceOfLot({ stages }, { lotSize, nonconforming: tooMany })
    const again = plan === 'before' ? [acceptanceInTries(acceptance, 2), acceptanceInTries(acceptance, 3)] : []
    const passes = [acceptance, ...again]
    const acceptanceNumber = stages.length === 1 ? last.acceptanceNumber : undefined
    return [{ plan, lotSize, tooMany, sampleSize: last.sampleSize, acceptanceNumber, passes }]
  })
  return [...rows, ...oneAfterTheOther(rows)]
}

function oneAfterTheOther(rows: readonly Tries[]): Tries[] {
  const [before, now] = [rows.find(({ plan }) => plan === 'before'), rows.find(({ plan }) => plan === 'now')]
  const [first, second] = [before?.passes[0], now?.passes[0]]
  if (!now || first === undefined || second === undefined) return []
  return [{ ...now, plan: 'both', passes: [undefined, 1 - (1 - first) * (1 - second)] }]
}
