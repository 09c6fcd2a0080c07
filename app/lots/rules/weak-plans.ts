// Frozen plans that let more slip through than their item wants: the arithmetic.
import type { Task } from '../../kit/task.ts'
import { exceeds } from '../../statistics/check.ts'
import { acceptanceOfLot } from '../../statistics/plans/measures.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import type { Demand } from './demand.ts'

export type WeakPlan = {
  lotId: number
  supplier: string
  tooMany: number
  /** chance that the frozen plan accepts a lot with exactly too many */
  acceptance: number
  /** of 100 such lots, how many the item wants caught */
  catchOf100: string
}

export type WeighedPlan = Omit<WeakPlan, 'acceptance'> & { lotSize: number; stages: readonly Stage[] }

export const weakPlansTask: Task<WeighedPlan[], WeakPlan[]> = {
  name: 'weak plans',
  work: (frozen) =>
    frozen.flatMap((plan) => {
      if (!isWeaker(plan)) return []
      const { lotId, supplier, tooMany, catchOf100 } = plan
      return [{ lotId, supplier, tooMany, acceptance: acceptanceOf(plan), catchOf100 }]
    }),
}

type Weighed = Pick<WeighedPlan, 'lotSize' | 'stages' | 'tooMany' | 'catchOf100'> & Partial<Pick<Demand, 'tightened'>>

/**
 * Whether a plan lets more lots with too many through than its item demands, or than the standard's tightened plan where that is demanded.
 * Every cord lets none through, as the others go back.
 */
export function isWeaker({ tightened, ...plan }: Weighed): boolean {
  const acceptance = acceptanceOf(plan)
  if (exceeds(acceptance, (100 - Number(plan.catchOf100)) / 100)) return true
  return tightened !== undefined && exceeds(acceptance, acceptanceOf({ ...plan, stages: tightened }))
}

/** Chance that a lot with exactly too many is accepted. */
function acceptanceOf({ lotSize, stages, tooMany }: Weighed): number {
  const [last] = stages.slice(-1)
  // a plan that tests every cord and allows every one is no acceptance: each cord goes by its own result
  if (last && last.sampleSize === lotSize && last.acceptanceNumber === lotSize) return 0
  return acceptanceOfLot({ stages }, { lotSize, nonconforming: tooMany })
}
