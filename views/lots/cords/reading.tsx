// What is entered of one cord: two margins, each by its side of the limit and a number, wire map, visual, marks.

import { lengths } from '../../../app/kit/limits.ts'
import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { Entry } from '../../../app/lots/rules/entry.ts'
import type { UndecidedRule } from '../../../app/terms/item.ts'
import { ChoiceField, Field, TextArea } from '../../form.tsx'

type Props = { typed: Typed; problems: Problems | undefined }

/** `typed` holds crosstalkSide, crosstalkMargin, returnLossSide, returnLossMargin, wireMap, visual, carton, spool, testerSerial. */
export function ReadingFields({ typed, problems }: Props) {
  const told = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  return (
    <>
      <MarginFields name="crosstalk" label="Crosstalk" typed={typed} problems={problems} />
      <MarginFields name="returnLoss" label="Return loss" typed={typed} problems={problems} />
      <ChoiceField {...told('wireMap')} label="Wire map" options={inspections} large />
      <ChoiceField {...told('visual')} label="Visual" options={inspections} large />
      <details open={marks.some((name) => problems?.[name])}>
        <summary>{marksWords(typed)}</summary>
        <Field {...told('carton')} label="Mark of the carton" maxlength={60} />
        <Field {...told('spool')} label="Mark of the cable’s spool" maxlength={60} />
        <Field {...told('testerSerial')} label="Tester’s serial number" maxlength={60} />
      </details>
    </>
  )
}

const marks = ['carton', 'spool', 'testerSerial']

/** What would be recorded with the cord unless it is changed. */
function marksWords({ carton, spool, testerSerial }: Typed): string {
  const taken = [carton && `carton ${carton}`, spool && `spool ${spool}`, testerSerial && `tester ${testerSerial}`]
  const words = taken.filter(Boolean).join(', ')
  return words === '' ? 'Carton, spool, tester (may stay empty)' : `Marked ${words}: change`
}

type MarginProps = Props & { name: 'crosstalk' | 'returnLoss'; label: string }

function MarginFields({ name, label, typed, problems }: MarginProps) {
  const side = `${name}Side`
  const margin = `${name}Margin`
  return (
    <div class={problems?.[margin] ? 'margin wrong' : 'margin'}>
      <ChoiceField
        name={side}
        label={`${label}: the worst margin is`}
        value={typed[side]}
        options={[
          { value: 'above', label: 'above the limit' },
          { value: 'short', label: 'short of the limit' },
        ]}
        large
      />
      <Field
        name={margin}
        label={`${label}: by how much`}
        value={typed[margin]}
        problem={problems?.[margin]}
        inputmode="decimal"
        size="short"
        unit="dB"
        maxlength={20}
      />
    </div>
  )
}

const inspections = [
  { value: 'in-order', label: 'in order' },
  { value: 'at-fault', label: 'at fault' },
]

/** Why a drawn cord has no reading; `plan` says what one that is gone or spoiled counts as. */
export function UntestedFields({ typed, problems, counts }: Props & { counts: UndecidedRule }) {
  return (
    <>
      <ChoiceField
        name="kind"
        label="What is the matter"
        value={typed.kind}
        problem={problems?.kind}
        options={[
          { value: 'damaged', label: 'too damaged to test', note: 'it does not conform, by its visual inspection' },
          { value: 'gone', label: 'gone: it was there when the lot was counted', note: undecidedNote[counts] },
          { value: 'spoiled', label: 'spoiled here, before it was tested', note: undecidedNote[counts] },
        ]}
        required
      />
      <TextArea
        name="note"
        label="What happened"
        value={typed.note}
        problem={problems?.note}
        rows={2}
        maxlength={lengths.note}
        required
      />
    </>
  )
}

const undecidedNote: Record<UndecidedRule, string> = {
  'manager-rules': 'not decided: a manager rules on it, and you go on with the next cord',
  nonconforming: 'it counts as not conforming',
}

/** The place is empty: the lot is counted again. */
export function RecountFields({ typed, problems, most }: Props & { most: number }) {
  return (
    <>
      <Field
        name="size"
        label="Cords that the lot has after all"
        hint="Look in the whole carton first. The next reserve of the draw takes this place; the frozen plan stays."
        value={typed.size ?? String(most)}
        problem={problems?.size}
        inputmode="numeric"
        size="short"
        required
      />
      <TextArea
        id="field-recount-reason"
        name="reason"
        label="How it was counted again"
        value={typed.reason}
        problem={problems?.reason}
        rows={2}
        maxlength={lengths.note}
        required
      />
    </>
  )
}

/** An entry as it would be typed again. */
export function entryAsTyped(entry: Entry): Typed {
  if (entry.kind !== 'tested') return { kind: entry.kind, note: entry.note }
  const { kind, wireMap, visual, carton = '', spool = '', testerSerial = '' } = entry
  return {
    kind,
    ...marginAsTyped('crosstalk', entry.crosstalkMargin),
    ...marginAsTyped('returnLoss', entry.returnLossMargin),
    wireMap,
    visual,
    carton,
    spool,
    testerSerial,
  }
}

function marginAsTyped(name: string, margin: string | undefined): Typed {
  if (margin === undefined) return {}
  const side = margin.startsWith('-') ? 'short' : 'above'
  return { [`${name}Side`]: side, [`${name}Margin`]: margin.replace('-', '') }
}
