// The parts of the decision's form: four choices with what follows and what it is expected to cost, the concession, the signature.

import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { Amount, Choice, Consequences, ExpectedUntested } from '../../../app/lots/rules/consequences.ts'
import { counted, expected, money, whole } from '../../figures.ts'
import { ChoiceField, Field, type Option, TextArea } from '../../form.tsx'
import type { DecisionProps } from './props.ts'

/** Each choice with what it is expected to cost from here on; nothing is chosen beforehand. */
export function DecisionChoices(props: DecisionProps) {
  const { problems, typed } = props
  return (
    <ChoiceField
      name="outcome"
      label={<span class="hidden">Your decision</span>}
      value={typed?.outcome}
      problem={problems?.outcome}
      options={[returning(props), screening(props), accepting(props), conceding(props)]}
      required
    />
  )
}

function returning({ lot, consequences, currency }: DecisionProps): Option {
  return {
    value: 'returned',
    label: <Priced words="Return the lot" amount={consequences.return} currency={currency} />,
    note: (
      <>
        <CostsLeast choice="return" of={consequences} />
        All {whole(lot.size)} go back; nothing is used.
      </>
    ),
  }
}

function screening({ lot, consequences, currency }: DecisionProps): Option {
  const left = lot.bounds?.untested ?? 0
  if (left === 0)
    return {
      value: 'screened',
      label: 'Screen the rest',
      disabled: true,
      note: 'Every cord is recorded: nothing is left to screen.',
    }
  return {
    value: 'screened',
    label: <Priced words="Screen the rest" amount={consequences.screen} currency={currency} />,
    disabled: lot.notHad.undecided.length > 0,
    note: (
      <>
        <CostsLeast choice="screen" of={consequences} />
        {counted(left, 'more test')}; keep what conforms, or return the lot{rangeOf(consequences.screen, currency)}.
      </>
    ),
  }
}

function accepting({ lot, consequences, currency }: DecisionProps): Option {
  const { accept, expectedUntested } = consequences
  const undecided = lot.notHad.undecided.length > 0
  return {
    value: 'accepted',
    label: (
      <Priced
        words={lot.verdict === 'accept' ? 'Accept' : 'Accept against the plan'}
        amount={accepted(lot, consequences)}
        currency={currency}
      />
    ),
    disabled: undecided,
    note: (
      <>
        <CostsLeast choice="accept" of={consequences} />
        <Escaping bounds={lot.bounds} expectedUntested={expectedUntested} most={accept.most} currency={currency} />
      </>
    ),
  }
}

function conceding({ lot, consequences, currency }: DecisionProps): Option {
  return {
    value: 'conceded',
    label: <Priced words="Concession" amount={accepted(lot, consequences)} currency={currency} />,
    disabled: lot.notHad.undecided.length > 0,
    note: 'One use, until one day, at a named person’s risk. Counts as not accepted.',
  }
}

/** None found in the sample alone is no expectation of none: then the most stands for the choice. */
function accepted(lot: DecisionProps['lot'], { accept, expectedUntested }: Consequences): Amount {
  const provesNothing = expectedUntested?.by.kind === 'sample' && lot.bounds?.found === 0 && lot.bounds.untested > 0
  return provesNothing ? { ...accept, expected: undefined } : accept
}

function CostsLeast({ choice, of }: { choice: Choice; of: Consequences }) {
  return of.leastCostly === choice ? <b>Costs least. </b> : null
}

type PricedProps = { words: string; amount: Amount; currency: string }

/** Money still to come, beside the choice; what is spent on tests so far is spent in any case. */
function Priced({ words, amount: { expected: mean, least, most }, currency }: PricedProps) {
  const sum =
    mean !== undefined
      ? money(mean, currency)
      : least === most
        ? money(most, currency)
        : `up to ${money(most, currency)}`
  return (
    <span class="priced">
      <b>{words}</b> <b>{sum}</b>
    </span>
  )
}

function rangeOf({ expected: mean, least, most }: Amount, currency: string): string {
  return mean === undefined && least !== most ? `; at least ${money(least, currency)}` : ''
}

type EscapingProps = {
  bounds: DecisionProps['lot']['bounds']
  expectedUntested: ExpectedUntested | undefined
  most: number
  currency: string
}

/** What may escape: expected, by what, and at worst. */
function Escaping({ bounds, expectedUntested, most, currency }: EscapingProps) {
  if (!bounds || bounds.untested === 0) return <>No cord is left untested.</>
  const worst = `at worst ${whole(bounds.upperInUntested)}, ${money(most, currency)} (95 %)`
  if (!expectedUntested) return <>No fair estimate after a stop; {worst}.</>
  const { cords, by } = expectedUntested
  const basis =
    by.kind === 'sample' ? 'at the sample’s own fraction' : `by ${counted(by.lots, 'finished lot')} and this sample`
  const none = by.kind === 'sample' && bounds.found === 0 ? ', which proves nothing' : ''
  return (
    <>
      Expected {basis}
      {none}: {expected(cords)} {cords === 1 ? 'cord' : 'cords'}; {worst}.
    </>
  )
}

type PartProps = { problems: Problems | undefined; typed: Typed }

/** Shown for a concession alone; without style sheets it stands there for all, and says so. */
export function ConcessionFields({ problems, typed }: PartProps) {
  const told = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  return (
    <fieldset class="concession">
      <legend>For a concession only</legend>
      <Field {...told('riskBearer')} label="Who bears the risk and agreed" maxlength={100} />
      <Field {...told('riskFirm')} label="Of which firm" maxlength={100} />
      <Field {...told('riskDocument')} label="Their document" hint="such as a letter with its date" maxlength={90} />
      <Field {...told('use')} label="For which use" maxlength={300} />
      <Field {...told('cords')} label="For how many cords" inputmode="numeric" size="short" />
      <Field {...told('until')} label="Until when" type="date" size="short" />
    </fieldset>
  )
}

export function Sign({ problems, typed, reasonHint }: PartProps & { reasonHint: string }) {
  return (
    <>
      <TextArea
        name="reason"
        rows={2}
        label="Reason"
        hint={reasonHint}
        value={typed.reason}
        problem={problems?.reason}
        maxlength={2000}
      />
      <Field
        name="password"
        label="Your password, as your signature"
        type="password"
        problem={problems?.password}
        autocomplete="current-password"
        required
      />
    </>
  )
}
