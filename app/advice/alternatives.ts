// The ways of testing that advice compares for a lot, each as a plan of stages.
import { stepsOfCost } from '../statistics/economics/cost-by-belief.ts'
import { rejectingWhenCertain } from '../statistics/plans/certain.ts'
import { everyUnit, noTest } from '../statistics/plans/every-unit.ts'
import { kinds, type PlanRequirements } from '../statistics/plans/kinds.ts'
import type { Stage, Stages } from '../statistics/plans/plan.ts'
import { type Inspection, type StandardPlan, standardPlan } from '../statistics/plans/standard.ts'
import type { InspectionLevel } from '../statistics/plans/tables/code-letters.ts'
import type { AcceptanceQualityLimit } from '../statistics/plans/tables/table.ts'
import { TooManySteps } from '../statistics/steps.ts'

export type AlternativeKind =
  | 'no-test'
  | 'percentage'
  | 'contract'
  | 'zero-acceptance'
  | 'single'
  | 'double'
  | 'groups'
  | 'standard'
  | 'every-cord'

/** `standard`: what the reader must know to check the plan against a copy of the standard. */
export type Alternative = { kind: AlternativeKind; plan: Stages; standard: StandardPlan | undefined }

/** The standard that a contract names, in the severity that the switching rules ask for. */
export type StandardWish = {
  acceptanceQualityLimit: AcceptanceQualityLimit
  level: InspectionLevel
  inspection: Inspection
}

/**
 * A way that is not compared. none: no plan of its kind keeps both risks of this lot; steps: working it out, or its costs, would
 * take more steps than advice is given; same: it comes to a way that is compared, as every way stops at its rejection number.
 * The same question always leaves out the same ways: no clock is looked at.
 */
export type LeftOut = { kind: AlternativeKind; because: 'none' | 'steps' | 'same' }

const designed = ['percentage', 'zero-acceptance', 'single', 'double', 'groups'] as const

/** Steps that the cost of one way may take under one belief; the page asks for some 140 beliefs. */
const mostSteps = 50_000

/**
 * All ways for requirements that can be worked out within their steps, and those that are left out.
 *
 * @param own a plan that the buyer named, of the contract or of habit
 */
export function alternativesFor(
  requirements: PlanRequirements,
  standard: StandardWish | undefined,
  own?: Stage,
): { ways: Alternative[]; leftOut: LeftOut[] } {
  const ways: Alternative[] = [{ kind: 'no-test', plan: noTest(), standard: undefined }]
  const leftOut: LeftOut[] = []
  for (const kind of designed) {
    const plan = possible(() => rejectingWhenCertain(kinds[kind](requirements)))
    if (typeof plan === 'string') leftOut.push({ kind, because: plan })
    else if (isOneGroup(kind, plan) || isOneThatStops(plan, ways)) leftOut.push({ kind, because: 'same' })
    else ways.push({ kind, plan, standard: undefined })
  }
  if (own) ways.push({ kind: 'contract', plan: { stages: [own] }, standard: undefined })
  if (standard && requirements.lotSize >= 2) {
    const found = standardPlan({ lotSize: requirements.lotSize, sampling: 'single', ...standard })
    ways.push({ kind: 'standard', plan: found.plan, standard: found })
  }
  ways.push({ kind: 'every-cord', plan: everyUnit(requirements.lotSize), standard: undefined })
  return { ways, leftOut }
}

/** A single group is one sample, and the single plan is listed with no more cords. */
function isOneGroup(kind: AlternativeKind, { stages }: Stages): boolean {
  return kind === 'groups' && stages.length === 1
}

/** Whether a plan of many stages can only accept at its end, and rejects as a single plan does that is compared and needs no more cords. */
function isOneThatStops({ stages }: Stages, ways: readonly Alternative[]): boolean {
  const last = stages.at(-1)
  if (!last || stages.length === 1) return false
  const { sampleSize, acceptanceNumber, rejectionNumber } = last
  const alike = stages.every(
    (stage) => stage === last || (stage.acceptanceNumber < 0 && stage.rejectionNumber === rejectionNumber),
  )
  return (
    alike &&
    ways.some(
      ({
        plan: {
          stages: [only, ...more],
        },
      }) =>
        only !== undefined &&
        more.length === 0 &&
        only.acceptanceNumber === acceptanceNumber &&
        only.sampleSize <= sampleSize,
    )
  )
}

/** The engine says by a RangeError that no plan of a kind keeps both risks for this lot, and by one of its own that it would take too long. */
function possible(design: () => Stages): Stages | LeftOut['because'] {
  try {
    const plan = design()
    return stepsOfCost(plan) > mostSteps ? 'steps' : plan
  } catch (error) {
    if (error instanceof TooManySteps) return 'steps'
    if (error instanceof RangeError) return 'none'
    throw error
  }
}
