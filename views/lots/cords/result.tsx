// How an entry of one cord is said: its state with shape and word, its digits, its reasons.

import type { EntryFacts } from '../../../app/lots/record/entry-facts.ts'
import type { Entry } from '../../../app/lots/rules/entry.ts'
import { decibels } from '../../figures.ts'
import { type CordStateMark, State } from '../../marks.tsx'

type Props = { state: CordStateMark; kind: Entry['kind']; nonconforming: boolean }

/** Shape and word; a missing cord is said so. A marginal one says how it counts. */
export function ResultStateMark({ state, kind, nonconforming }: Props) {
  if (kind === 'missing') return <State state="not-tested" word="missing, counts as not conforming" />
  if (kind === 'untestable') return <State state="not-tested" word="cannot be tested, counts as not conforming" />
  if (state !== 'marginal') return <State state={state} />
  return <State state={state} word={`marginal, counts as ${nonconforming ? 'not conforming' : 'conforming'}`} />
}

/** The state of an entry. */
export function EntryState({ entry }: { entry: EntryFacts }) {
  return <ResultStateMark state={entry.state} kind={entry.reading.kind} nonconforming={entry.nonconforming} />
}

/** Every digit as it was entered. */
export function entryDigits(entry: Entry): string {
  if (entry.kind !== 'tested') return entry.note
  const margin = (what: string, digits: string | undefined) =>
    digits === undefined ? `${what} not read` : `${what} ${decibels(digits)}`
  const fault = (what: string, found: string) => `${what} ${found === 'at-fault' ? 'at fault' : 'in order'}`
  return [
    margin('crosstalk', entry.crosstalkMargin),
    margin('return loss', entry.returnLossMargin),
    fault('wire map', entry.wireMap),
    fault('visual', entry.visual),
  ].join(', ')
}

/** Carton mark, spool and tester, where they were entered. */
export function entryMarks(entry: Entry): string {
  if (entry.kind !== 'tested') return ''
  const { carton, spool, testerSerial } = entry
  return [carton && `carton ${carton}`, spool && `spool ${spool}`, testerSerial && `tester ${testerSerial}`]
    .filter(Boolean)
    .join(', ')
}
