// The standard's single plan as it is kept with a lot's own.
import type { FrozenStandard } from '../lots/rules/first-fetch.ts'
import { type SeriesTerms, singlePlanOf } from '../lots/rules/standard-terms.ts'
import type { Inspection } from '../statistics/plans/standard.ts'

/** Undefined for a lot of one cord. */
export function standardIn(terms: SeriesTerms, lotSize: number, severity: Inspection): FrozenStandard | undefined {
  const found = singlePlanOf(terms, lotSize, severity)
  const stage = found?.plan.stages[0]
  if (!found || !stage) return undefined
  return {
    sampleSize: stage.sampleSize,
    acceptanceNumber: found.staysUpTo,
    rejectionNumber: stage.rejectionNumber,
    severity,
    limit: terms.acceptanceQualityLimit,
    level: terms.level,
    letter: found.codeLetter,
    standing: found.standing,
  }
}
