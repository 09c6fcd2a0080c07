// How an entry of one cord is said: its state with shape and word, its digits, its reasons.

import type { EntryFacts } from '../../../app/lots/record/entry-facts.ts'
import type { Entry } from '../../../app/lots/rules/entry.ts'
import { decibels } from '../../figures.ts'
import { type CordStateMark, State } from '../../marks.tsx'
import { notHadWords } from '../../words/not-had.ts'

type Props = {
  state: CordStateMark
  kind: Entry['kind']
  nonconforming: boolean
  standing: EntryFacts['standing']
}

/** Shape and word; a cord without readings says why. A marginal one says how it counts. */
export function ResultStateMark({ state, kind, nonconforming, standing }: Props) {
  if (kind === 'damaged') return <State state={state} word="too damaged to test, does not conform" />
  if (kind !== 'tested') return <State state="not-tested" word={`${notHadWords[kind]}${countsAs(kind, standing)}`} />
  if (state !== 'marginal') return <State state={state} />
  return <State state={state} word={`marginal, counts as ${nonconforming ? 'not conforming' : 'conforming'}`} />
}

function countsAs(kind: Entry['kind'], standing: EntryFacts['standing']): string {
  if (standing === 'counts') return ', counts as not conforming'
  if (standing === 'undecided') return ', not decided'
  return standing === 'aside' && kind === 'no-cord' ? ', the lot was counted again' : ''
}

/** The state of an entry. */
export function EntryState({ entry }: { entry: EntryFacts }) {
  const { state, reading, nonconforming, standing } = entry
  return <ResultStateMark state={state} kind={reading.kind} nonconforming={nonconforming} standing={standing} />
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
