// The standard's own plan on the first picks of a lot's draw, beside the plan that decides on the lot.
import type { plans } from '../../../db/schema/lots.ts'
import {
  type AcceptanceQualityLimit,
  acceptanceQualityLimits,
  type CodeLetter,
  codeLetters,
} from '../../statistics/plans/tables/table.ts'
import type { SampleCount } from './progress.ts'

/** As the tables have them: a lot is accepted below the rejection number; between the two numbers the next one is inspected as normal. */
export type StandardNumbers = { sampleSize: number; acceptanceNumber: number; rejectionNumber: number }

type Plan = typeof plans.$inferSelect

/** The standard's plan that was frozen with a lot, and what a reader must know to check it against a copy of the standard. */
export type FrozenStandard = StandardNumbers & {
  severity: NonNullable<Plan['standardSeverity']>
  limit: AcceptanceQualityLimit
  level: NonNullable<Plan['standardLevel']>
  letter: CodeLetter
  standing: NonNullable<Plan['standardStanding']>
}

/** not known: its cords are not all tested and do not reach the rejection number, or the draw has fewer than it asks for. */
export type StandardVerdict = 'accept' | 'reject' | 'not known'

/** The first picks of a draw, as far as they are tested. */
export type FirstFetch = FrozenStandard &
  SampleCount & {
    /** cords of it that are not recorded; undefined where the draw has fewer than it asks for */
    left: number | undefined
    /** cords of it that are gone or spoiled here and not ruled on: among those left */
    undecided: number
    verdict: StandardVerdict
    /** it is not complete and has not reached the rejection number, and can be */
    open: boolean
    /** it is fetched before the others of the sample: a walk of its own */
    first: boolean
  }

export type PlanWithStandard = Pick<
  Plan,
  | 'kind'
  | 'sampleSize'
  | 'standardSampleSize'
  | 'standardAcceptanceNumber'
  | 'standardRejectionNumber'
  | 'standardSeverity'
  | 'standardLimit'
  | 'standardLevel'
  | 'standardLetter'
  | 'standardStanding'
>

/** Undefined where the plan was frozen without one. The database has all of its columns or none. */
export function frozenStandardOf(plan: Omit<PlanWithStandard, 'kind' | 'sampleSize'>): FrozenStandard | undefined {
  const { standardSampleSize: sampleSize, standardAcceptanceNumber, standardRejectionNumber } = plan
  const { standardSeverity: severity, standardLevel: level, standardStanding: standing } = plan
  const limit = acceptanceQualityLimits.find((each) => each === plan.standardLimit)
  const letter = codeLetters.find((each) => each === plan.standardLetter)
  if (sampleSize === null || standardAcceptanceNumber === null || standardRejectionNumber === null) return undefined
  if (severity === null || level === null || standing === null || !limit || !letter) return undefined
  const numbers = {
    sampleSize,
    acceptanceNumber: standardAcceptanceNumber,
    rejectionNumber: standardRejectionNumber,
  }
  return { ...numbers, severity, limit, level, letter, standing }
}

/**
 * What the standard's plan says of the first picks of a draw. Which of them are tested first is no matter: the picks are a random
 * sample of the lot before any is opened.
 *
 * @param drawn picks that the lot has
 */
export function standardVerdict(
  { sampleSize, rejectionNumber }: StandardNumbers,
  { recorded, found, drawn }: SampleCount & { drawn: number },
): StandardVerdict {
  if (drawn < sampleSize) return 'not known'
  if (found >= rejectionNumber) return 'reject'
  return recorded < sampleSize ? 'not known' : 'accept'
}

/**
 * Undefined where the plan was frozen without the standard's.
 *
 * @param undecidedPicks picks of the draw whose cords are undecided: the fetch is not complete before they are ruled on
 */
export function firstFetchOf(
  plan: PlanWithStandard,
  { recorded, found }: SampleCount,
  undecidedPicks: readonly number[] = [],
): FirstFetch | undefined {
  const standard = frozenStandardOf(plan)
  if (!standard) return undefined
  const { sampleSize: drawn, kind } = plan
  const verdict = standardVerdict(standard, { recorded, found, drawn })
  const fits = standard.sampleSize <= drawn
  return {
    ...standard,
    recorded,
    found,
    left: fits ? standard.sampleSize - recorded : undefined,
    undecided: undecidedPicks.filter((pick) => pick <= standard.sampleSize).length,
    verdict,
    open: fits && verdict === 'not known',
    first: standard.sampleSize < drawn && kind !== 'every-cord', // where every cord is tested, none is left out by a stop
  }
}
