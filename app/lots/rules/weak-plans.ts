// Frozen plans that let more slip through than their item wants: the arithmetic.
import type { Task } from '../../kit/task.ts'
import { exceeds } from '../../statistics/check.ts'
import { acceptanceOfLot } from '../../statistics/plans/measures.ts'
import type { Stage } from '../../statistics/plans/plan.ts'

export type WeakPlan = {
  lotId: number
  supplier: string
  tooMany: number
  /** chance that the frozen plan accepts a lot with exactly too many */
  acceptance: number
  /** of 100 such lots, how many the item wants caught */
  catchOf100: string
}

export type WeighedPlan = Omit<WeakPlan, 'acceptance'> & { lotSize: number; stages: Stage[] }

export const weakPlansTask: Task<WeighedPlan[], WeakPlan[]> = {
  name: 'weak plans',
  work: (frozen) =>
    frozen.flatMap(({ lotId, supplier, tooMany, catchOf100, lotSize, stages }) => {
      const acceptance = acceptanceOfLot({ stages }, { lotSize, nonconforming: tooMany })
      return exceeds(acceptance, (100 - Number(catchOf100)) / 100)
        ? [{ lotId, supplier, tooMany, acceptance, catchOf100 }]
        : []
    }),
}
