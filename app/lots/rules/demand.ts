// What is demanded of a lot's plan: the item's own terms, and of a lot that was here before stricter ones.
import type { items } from '../../../db/schema/register.ts'
import { halfway, wholeCords } from '../../kit/decimal.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import { seriesTermsOf, singlePlanOf } from './standard-terms.ts'

export type Demand = {
  lotSize: number
  /** so many nonconforming cords are too many, and of 100 lots with them so many are to be caught */
  tooMany: number
  catchOf100: string
  /** of a resubmitted lot whose contract names the standard: its tightened plan, and none weaker is taken without a reason */
  tightened: readonly Stage[] | undefined
}

type Item = typeof items.$inferSelect
export type DemandingItem = Pick<Item, 'tooMany' | 'catchOf100' | 'acceptanceQualityLimit' | 'inspectionLevel'>

/** How many cords the lot has, and whether it went back before and comes again. */
export type DemandedLot = { size: number; resubmitted: boolean }

/**
 * A lot that was rejected and comes again meets the standard's tightened plan where its contract names the standard, and else the item's own
 * demand at half its risk. Of one cord the standard has no plan.
 */
export function demandOf(item: DemandingItem, { size: lotSize, resubmitted }: DemandedLot): Demand {
  const demand = { lotSize, tooMany: tooManyIn(item.tooMany, lotSize), catchOf100: item.catchOf100 }
  if (!resubmitted) return { ...demand, tightened: undefined }
  const terms = seriesTermsOf(item)
  const tightened = terms && singlePlanOf(terms, lotSize, 'tightened')?.plan.stages
  return { ...demand, catchOf100: tightened ? item.catchOf100 : halfway(item.catchOf100, '100'), tightened }
}

/** An item that calls 5 cords too many says nothing of a lot of 3: there all 3 are. */
export function tooManyIn(said: string, lotSize: number): number {
  return wholeCords(said, lotSize) ?? lotSize
}
