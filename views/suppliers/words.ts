// How the inspection of a series is spoken of.
import type { FrozenStandard } from '../../app/lots/rules/first-fetch.ts'
import type { KnownInspection, SeriesInspection, Switching } from '../../app/series/switching.ts'
import { whole } from '../figures.ts'

export const inspectionWords: Record<KnownInspection, string> = {
  normal: 'Normal inspection',
  tightened: 'Tightened inspection',
  reduced: 'Reduced inspection',
  discontinued: 'Inspection discontinued',
  'not-known': 'Not known',
}

/** Why the state is what it is, after a colon. */
export const reasonWords: Record<Switching['state']['reason'], string> = {
  start: 'a series begins under normal inspection',
  'two of five not accepted': 'two of five or fewer lots in a row were not accepted',
  'five in a row accepted': 'five lots in a row were accepted',
  'ten in a row accepted': 'ten lots in a row were accepted',
  'switching score of thirty': 'the switching score reached thirty and reduced inspection was wanted',
  'not accepted under reduced inspection': 'a lot was not accepted under reduced inspection',
  'between the numbers under reduced inspection':
    'a lot fell between acceptance and rejection number under reduced inspection',
  'production not steady': 'production was no longer steady, or reduced inspection no longer wanted',
  'five not accepted under tightened inspection': 'five lots were not accepted under tightened inspection',
  'supplier has acted': 'the supplier has acted',
}

/** Inspections in which a series may stand: tightened or normal. */
export function inspectionsWords(possible: readonly SeriesInspection[]): string {
  return possible.join(' or ')
}

/** Lots by number, at the beginning of a sentence: Lot 12; Lots 12 and 14. */
export function lotsWords(lotIds: readonly number[]): string {
  const [last = 0, ...before] = lotIds.toReversed()
  return before.length === 0 ? `Lot ${last}` : `Lots ${before.toReversed().join(', ')} and ${last}`
}

/** What the standard's plan allows: none allowed; 1 allowed; 1 allowed, 4 are too many. */
export function allowedWords({ acceptanceNumber, rejectionNumber }: FrozenStandard): string {
  const allowed = acceptanceNumber === 0 ? 'none allowed' : `${whole(acceptanceNumber)} allowed`
  return rejectionNumber === acceptanceNumber + 1 ? allowed : `${allowed}, ${whole(rejectionNumber)} are too many`
}
