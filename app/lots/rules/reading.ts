// An entry as it is kept: checked, judged by the plan's frozen terms, and with what was found.

import { refuseUnwanted } from '../../kit/characters.ts'
import { compareDecimals } from '../../kit/decimal.ts'
import { lengths, widestMargin } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { type CordState, type Parameter, untestedKinds } from '../../terms/cord.ts'
import { assessConformity, type ConformityTerms, type Finding } from './conformity.ts'
import type { Entry, TestedEntry, UntestedEntry } from './entry.ts'
import { isFailingZero } from './margin.ts'

export type EntryFinding = Finding | UntestedEntry

export type AssessedEntry = { state: CordState | 'not-tested'; nonconforming: boolean; findings: EntryFinding[] }

/**
 * What the entry comes to, with the note of an untested cord as its finding. One too damaged to test does not conform by its visual
 * inspection; any other without readings is nonconforming where it counts at all.
 */
export function assessedBy(entry: Entry, terms: ConformityTerms): AssessedEntry {
  if (entry.kind === 'tested') return assessConformity(entry, terms)
  const findings = [{ kind: entry.kind, note: entry.note }]
  if (entry.kind === 'damaged') return { state: 'does-not-conform', nonconforming: true, findings }
  return { state: 'not-tested', nonconforming: true, findings }
}

/** Returns the entry as it is kept; throws Refusal that names the first field to mend. */
export function checkedEntry(entry: Entry): Entry {
  if (entry.kind !== 'tested') {
    if (!untestedKinds.some((kind) => kind === entry.kind)) throw new Refusal('invalid', 'entry/kind', {}, 'kind')
    const note = entry.note.trim()
    if (note === '' || note.length > lengths.note) throw new Refusal('invalid', 'entry/note', {}, 'note')
    return { kind: entry.kind, note }
  }
  checkMargin('crosstalkMargin', 'crosstalk', entry.crosstalkMargin, entry)
  checkMargin('returnLossMargin', 'return-loss', entry.returnLossMargin, entry)
  const { carton, spool, testerSerial } = entry
  return {
    ...entry,
    carton: mark('carton', carton),
    spool: mark('spool', spool),
    testerSerial: mark('testerSerial', testerSerial),
  }
}

function checkMargin(
  field: string,
  parameter: Parameter,
  margin: string | undefined,
  { wireMap, visual }: TestedEntry,
): void {
  if (margin === undefined) {
    if (wireMap === 'at-fault' || visual === 'at-fault') return
    throw new Refusal('invalid', 'reading/missing', { parameter }, field)
  }
  if (!/^-?\d{1,6}(\.\d{1,9})?$/.test(margin)) throw new Refusal('invalid', 'reading/no-number', { parameter }, field)
  if (isFailingZero(margin)) throw new Refusal('invalid', 'reading/failing-zero', {}, field)
  if (compareDecimals(margin, `-${widestMargin}`) < 0 || compareDecimals(margin, String(widestMargin)) > 0)
    throw new Refusal('invalid', 'reading/out-of-range', { parameter }, field)
}

function mark(field: string, typed: string | undefined): string | undefined {
  const kept = typed?.trim()
  if (kept !== undefined && kept.length > lengths.mark) throw new Refusal('invalid', 'entry/mark', {}, field)
  if (kept !== undefined) refuseUnwanted(field, kept)
  return kept === '' ? undefined : kept
}
