// How the inspection of a series is spoken of.
import type { SeriesInspection, Switching } from '../../app/history/series/switching.ts'

export const inspectionWords: Record<SeriesInspection, string> = {
  normal: 'Normal inspection',
  tightened: 'Tightened inspection',
  reduced: 'Reduced inspection',
  discontinued: 'Inspection discontinued',
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
