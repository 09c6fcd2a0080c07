// The ways of testing that advice compares for a lot, each as a plan of stages.
import { rejectingWhenCertain } from '../statistics/plans/certain.ts'
import { everyUnit, noTest } from '../statistics/plans/every-unit.ts'
import { kinds, type Wish } from '../statistics/plans/kinds.ts'
import type { Stages } from '../statistics/plans/plan.ts'
import { type Inspection, type StandardPlan, standardPlan } from '../statistics/plans/standard.ts'
import type { InspectionLevel } from '../statistics/plans/tables/code-letters.ts'
import type { AcceptanceQualityLimit } from '../statistics/plans/tables/table.ts'

export type WayKind =
  | 'no-test'
  | 'percentage'
  | 'zero-acceptance'
  | 'single'
  | 'double'
  | 'sequential'
  | 'standard'
  | 'every-cord'

/** `standard`: what the reader must know to check the plan against a copy of the standard. */
export type AdvisedWay = { kind: WayKind; plan: Stages; standard: StandardPlan | undefined }

/** The standard that a contract names, in the severity that the switching rules ask for. */
export type StandardWish = {
  acceptanceQualityLimit: AcceptanceQualityLimit
  level: InspectionLevel
  inspection: Inspection
}

const designed = ['percentage', 'zero-acceptance', 'single', 'double', 'sequential'] as const

/** All ways for a wish. A kind that has no plan keeping both risks of this lot is left out. */
export function waysFor(wish: Wish, standard: StandardWish | undefined): AdvisedWay[] {
  const ways: AdvisedWay[] = [{ kind: 'no-test', plan: noTest(), standard: undefined }]
  for (const kind of designed) {
    const plan = possible(() => kinds[kind](wish))
    if (plan) ways.push({ kind, plan: rejectingWhenCertain(plan), standard: undefined })
  }
  if (standard && wish.lotSize >= 2) {
    const found = standardPlan({ lotSize: wish.lotSize, sampling: 'single', ...standard })
    ways.push({ kind: 'standard', plan: found.plan, standard: found })
  }
  return [...ways, { kind: 'every-cord', plan: everyUnit(wish.lotSize), standard: undefined }]
}

/** The engine says by a RangeError that no plan of a kind keeps both risks for this lot: then there is no such way. */
function possible(design: () => Stages): Stages | undefined {
  try {
    return design()
  } catch (error) {
    if (error instanceof RangeError) return undefined
    throw error
  }
}
