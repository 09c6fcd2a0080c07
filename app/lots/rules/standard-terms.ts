// What an item says about the published standard, and the standard's single plans for it.
import type { items } from '../../../db/schema/register.ts'
import { type Inspection, type StandardPlan, standardPlan } from '../../statistics/plans/standard.ts'
import type { InspectionLevel } from '../../statistics/plans/tables/code-letters.ts'
import { type AcceptanceQualityLimit, acceptanceQualityLimits } from '../../statistics/plans/tables/table.ts'

/** The standard's own terms of an item. */
export type SeriesTerms = { acceptanceQualityLimit: AcceptanceQualityLimit; level: InspectionLevel }

/** Undefined where the item names no acceptance quality limit that the standard's tables have. */
export function seriesTermsOf(
  item: Pick<typeof items.$inferSelect, 'acceptanceQualityLimit' | 'inspectionLevel'> | undefined,
): SeriesTerms | undefined {
  const named = item?.acceptanceQualityLimit
  if (!item || named === null || named === undefined) return undefined
  const limit = acceptanceQualityLimits.find((each) => Number(each) === Number(named))
  return limit && { acceptanceQualityLimit: limit, level: item.inspectionLevel }
}

/** The single plan of the standard for a lot; undefined for a lot of one cord, which has no letter: it is tested. */
export function singlePlanOf(terms: SeriesTerms, lotSize: number, inspection: Inspection): StandardPlan | undefined {
  return lotSize < 2 ? undefined : standardPlan({ lotSize, sampling: 'single', inspection, ...terms })
}
