// Between an entry and its row in the database.
import type { results } from '../../../db/schema/results.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import type { Entry } from '../rules/entry.ts'
import { type AssessedEntry, assessedBy, type EntryFinding } from '../rules/reading.ts'

type Row = typeof results.$inferSelect
type Reading = Pick<
  Row,
  'kind' | 'crosstalkMargin' | 'returnLossMargin' | 'wireMap' | 'visual' | 'note' | 'carton' | 'spool' | 'testerSerial'
>

/** The columns that hold the entry and what it was judged to be. */
export function columnsOf(
  entry: Entry,
  { state, nonconforming }: AssessedEntry,
): Reading & Pick<Row, 'state' | 'nonconforming'> {
  const none = {
    crosstalkMargin: null,
    returnLossMargin: null,
    wireMap: null,
    visual: null,
    note: null,
    carton: null,
    spool: null,
    testerSerial: null,
  }
  if (entry.kind !== 'tested') {
    const visual = entry.kind === 'damaged' ? 'at-fault' : null
    return { ...none, kind: entry.kind, visual, note: entry.note, state, nonconforming }
  }
  const { kind, crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool, testerSerial } = entry
  return {
    ...none,
    kind,
    crosstalkMargin: crosstalkMargin ?? null,
    returnLossMargin: returnLossMargin ?? null,
    wireMap,
    visual,
    carton: carton ?? null,
    spool: spool ?? null,
    testerSerial: testerSerial ?? null,
    state,
    nonconforming,
  }
}

/** The entry that a row holds. */
export function entryIn(row: Reading): Entry {
  if (row.kind !== 'tested') return { kind: row.kind, note: row.note ?? '' }
  if (row.wireMap === null || row.visual === null) throw new Error('a tested cord has no inspections')
  return {
    kind: 'tested',
    crosstalkMargin: row.crosstalkMargin ?? undefined,
    returnLossMargin: row.returnLossMargin ?? undefined,
    wireMap: row.wireMap,
    visual: row.visual,
    carton: row.carton ?? undefined,
    spool: row.spool ?? undefined,
    testerSerial: row.testerSerial ?? undefined,
  }
}

/** Why the row's cord is what it is; the state itself is the one that was kept. */
export function findingsOf(row: Reading, terms: ConformityTerms): EntryFinding[] {
  return assessedBy(entryIn(row), terms).findings
}
