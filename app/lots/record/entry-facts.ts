// An entry of a cord as pages show it: what was read, what it came to, by whom and when.

import type { results } from '../../../db/schema/results.ts'
import type { ResultState } from '../../terms/cord.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import type { Entry } from '../rules/entry.ts'
import type { EntryFinding } from '../rules/reading.ts'
import { entryIn, findingsOf } from './row.ts'

/** An entry that stands, or stood before a correction. */
export type EntryFacts = {
  /** 1 for the first entry, one more for each correction */
  entry: number
  reading: Entry
  state: ResultState
  nonconforming: boolean
  findings: EntryFinding[]
  /** aside: another cord is tested in its place, or none lies there; undefined of an entry that was corrected since */
  standing: 'counts' | 'undecided' | 'aside' | undefined
  recordedBy: string
  recordedAt: Date
}

export type EarlierEntry = EntryFacts & { correctedBy: string; correctedAt: Date; correctionReason: string }

export type EntryRow = Omit<Row, 'counts' | 'undecided'> & Partial<Pick<Row, 'counts' | 'undecided'>>
type Row = typeof results.$inferSelect

/** An entry as pages show it, whether it stands or was corrected since. */
export function entryFacts(row: EntryRow, terms: ConformityTerms, recordedBy: string): EntryFacts {
  const { entry, state, nonconforming, recordedAt } = row
  return {
    entry,
    reading: entryIn(row),
    state,
    nonconforming,
    findings: findingsOf(row, terms),
    standing: standingOf(row),
    recordedBy,
    recordedAt,
  }
}

function standingOf({ counts, undecided }: EntryRow): EntryFacts['standing'] {
  if (counts === undefined) return undefined
  return counts ? 'counts' : undecided ? 'undecided' : 'aside'
}
