// Every kind of plan by attributes, by name: comparison, charts, the interface and the pages read this list.
import { designDoubleForLot, doublePlan } from './double.ts'
import { everyUnit, noTest } from './every-unit.ts'
import { designGroupsForLot } from './groups.ts'
import { designMultipleForLot } from './multiple.ts'
import { percentagePlan } from './percentage.ts'
import type { LotRisk, Plan } from './plan.ts'
import { designSequentialForLot } from './sequential.ts'
import { designSingleForLot, singlePlan } from './single.ts'
import { designZeroForLot, zeroPlan } from './zero.ts'

/** What a buyer wants for the lot in hand, and the share that is tested today; each kind takes from it what it needs. */
export type PlanRequirements = {
  readonly lotSize: number
  readonly producer: LotRisk
  readonly consumer: LotRisk
  readonly share: number
  /** cords tested between two looks, where testing goes by groups */
  readonly groupSize?: number
}

/** The plan that each kind makes of requirements; RangeError where a kind has none for them, by name of the argument. */
export const kinds = {
  'zero-acceptance': ({ lotSize, consumer }: PlanRequirements): Plan =>
    zeroPlan(designZeroForLot({ lotSize, ...consumer })),
  single: (requirements: PlanRequirements): Plan => singlePlan(designSingleForLot(requirements)),
  double: (requirements: PlanRequirements): Plan => doublePlan(designDoubleForLot(requirements)),
  multiple: (requirements: PlanRequirements): Plan => designMultipleForLot({ ...requirements, samples: 7 }),
  groups: (requirements: PlanRequirements): Plan => designGroupsForLot(requirements),
  sequential: (requirements: PlanRequirements): Plan => designSequentialForLot(requirements),
  percentage: ({ lotSize, share }: PlanRequirements): Plan => percentagePlan({ lotSize, share, acceptanceNumber: 0 }),
  'every-unit': ({ lotSize }: PlanRequirements): Plan => everyUnit(lotSize),
  'no-test': (): Plan => noTest(),
}
