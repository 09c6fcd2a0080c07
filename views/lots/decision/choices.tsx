// The parts of the decision's form: four choices with what follows and what it is expected to cost, the concession, the signature.

import type { Child } from 'hono/jsx'
import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { Amount } from '../../../app/lots/rules/consequences.ts'
import { counted, expected, money, whole } from '../../figures.ts'
import { ChoiceField, Field, TextArea } from '../../form.tsx'
import type { DecisionProps } from './props.ts'

export function DecisionChoices({ lot, consequences, currency, problems, typed }: DecisionProps) {
  const left = lot.bounds?.untested ?? 0
  const undecided = lot.notHad.undecided.length > 0
  const cost = (amount: Amount, what: string) => <Cost amount={amount} currency={currency} what={what} />
  return (
    <ChoiceField
      name="outcome"
      label="Your decision"
      value={typed?.outcome}
      problem={problems?.outcome}
      options={[
        {
          value: 'accepted',
          label: 'Accept',
          disabled: undecided,
          note: <Accepting bounds={lot.bounds} cost={cost(consequences.accept, 'escapes')} />,
        },
        {
          value: 'conceded',
          label: 'Accept by concession',
          disabled: undecided,
          note: <Conceding cost={cost(consequences.accept, 'escapes')} />,
        },
        {
          value: 'screened',
          label: 'Screen: test all the rest',
          disabled: left === 0 || undecided,
          note: <Screening left={left} cost={cost(consequences.screen, 'tests, and a return if any go back')} />,
        },
        {
          value: 'returned',
          label: 'Return the lot',
          note: <Returning size={lot.size} cost={cost(consequences.return, 'the return')} />,
        },
      ]}
      required
    />
  )
}

function Accepting({ bounds, cost }: { bounds: DecisionProps['lot']['bounds']; cost: Child }) {
  return (
    <>
      The lot goes to stock without the cords found not conforming. {untestedWords(bounds)} {cost}
    </>
  )
}

function Conceding({ cost }: { cost: Child }) {
  return (
    <>
      As accepting, for one use and until one day, by somebody who bears the risk; it counts as not accepted in the
      supplier’s history. {cost}
    </>
  )
}

function Screening({ left, cost }: { left: number; cost: Child }) {
  if (left === 0) return <>Every cord is recorded already: nothing is left to screen.</>
  return (
    <>
      {counted(left, 'cord')} more at the bench; then the conforming ones are kept and the others go back, or the whole
      lot does. {cost}
    </>
  )
}

function Returning({ size, cost }: { size: number; cost: Child }) {
  return (
    <>
      All {whole(size)} go back, and none is shipped. {cost}
    </>
  )
}

function untestedWords(proof: DecisionProps['lot']['bounds']): string {
  if (!proof || proof.untested === 0) return 'No cord is left untested.'
  const { untested, expectedInUntested, upperInUntested } = proof
  const at = expectedInUntested === undefined ? '' : `about ${expected(expectedInUntested)} at the sample’s own rate, `
  return `Of the ${counted(untested, 'untested cord')} some could be nonconforming: ${at}${whole(upperInUntested)} at most (95 %).`
}

/** Money still to come; what is spent on tests so far is spent in any case. */
function Cost({ amount, currency, what }: { amount: Amount; currency: string; what: string }): Child {
  const { expected: mean, least, most } = amount
  if (least === most) return <b>{`Cost: ${money(most, currency)} (${what}).`}</b>
  const between = `between ${money(least, currency)} and ${money(most, currency)} by the 95 % bounds`
  if (mean === undefined) return <b>{`Cost: ${between} (${what}).`}</b>
  return <b>{`Expected cost at the sample’s own rate: ${money(mean, currency)}; ${between} (${what}).`}</b>
}

type PartProps = { problems: Problems | undefined; typed: Typed }

/** Shown for a concession alone; without style sheets it stands there for all, and says so. */
export function ConcessionFields({ problems, typed }: PartProps) {
  const told = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  return (
    <fieldset class="concession">
      <legend>For a concession only</legend>
      <Field {...told('riskBearer')} label="Who bears the risk and agreed" maxlength={300} />
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
