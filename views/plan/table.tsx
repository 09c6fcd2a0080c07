// The ways of testing side by side: what each protects, and what it costs where something is believed of the supplier.
import type { Child } from 'hono/jsx'
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative, EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { amount, expected, frequency, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { ChooseWay, type Choosing } from './freeze.tsx'
import { doingOf, goodIn, openedIn, slipsThrough, wayNameOf } from './words.ts'

type Props = {
  advice: Advice
  currency: string
  choosing: Choosing
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function WaysTable({ advice, currency, choosing, problems, typed }: Props) {
  const { alternatives, lot, requirements } = advice
  const letters = lettersOf(alternatives)
  const tooMany = whole(lot.terms.tooMany)
  const good = whole(goodIn(advice))
  return (
    <DataTable
      caption={captionOf(advice)}
      columns={[
        { head: 'Way of testing' },
        { head: 'Cords tested' },
        { head: 'Allowed' },
        { head: `With ${tooMany}: slip through` },
        { head: `With only ${good}: rejected` },
        ...(advice.kind === 'priced' ? [{ head: `Expected cost, ${currency}` }] : []),
        ...(choosing !== 'nothing' ? [{ head: <span class="hidden">Choice</span>, short: 'Choice' }] : []),
      ]}
      rows={alternatives.map((way) => ({
        picked: way === advice.recommendation.chosen,
        cells: [
          <Name way={way} letter={letters.get(way) ?? ''} advice={advice} />,
          ...protectionCells(way, { ...lot.terms, goodRisk: requirements.goodRisk }),
          ...('cost' in way ? [amount(way.cost.total)] : []),
          ...(choosing !== 'nothing'
            ? [<ChooseWay way={way} advice={advice} choosing={choosing} problems={problems} typed={typed} />]
            : []),
        ],
      }))}
    />
  )
}

function captionOf({ lot }: Advice): string {
  return `Chances are exact for a random draw from ${whole(lot.size)}. Every way stops at its rejection number, and in a series not before the standard’s first fetch has ended.`
}

type Risks = { catchOf100: string; goodRisk: number }

function protectionCells(way: AssessedAlternative | EvaluatedAlternative, { catchOf100, goodRisk }: Risks): Child[] {
  const slips = slipsThrough(way, catchOf100)
  return [
    <span>
      up to {whole(way.testsAtMost)}
      {'tests' in way && <small>{expected(way.tests)} on average</small>}
    </span>,
    allowedIn(way),
    way.protects ? slips : <b>{slips}</b>,
    frequency(way.rejectionOfGood, way.acceptanceOfGood, goodRisk),
  ]
}

function allowedIn({ kind, plan }: AssessedAlternative): string {
  if (kind === 'every-cord') return '–'
  const { stages } = plan
  if (stages.length === 0) return 'all'
  if (stages.length > 2) return `up to ${whole(stages.at(-1)?.acceptanceNumber ?? 0)}`
  return stages.map(({ acceptanceNumber }) => whole(acceptanceNumber)).join(', then ')
}

/** A letter for each way, in the order of the table; the chart uses the same. */
export function lettersOf<Way extends AssessedAlternative>(ways: readonly Way[]): Map<AssessedAlternative, string> {
  return new Map(ways.map((way, at) => [way, String.fromCharCode(65 + at)]))
}

function Name({ way, letter, advice }: { way: AssessedAlternative; letter: string; advice: Advice }) {
  const { chosen } = advice.recommendation
  return (
    <>
      <span class="way-letter">{letter}</span> {wayNameOf(way)}
      <small>
        {way === chosen && 'recommended; '}
        {doingOf(way)}
        {way.kind === 'groups' && `; ${openedIn(advice)}`}
        {!way.protects && '; weaker than the item demands'}
        {way.standard &&
          way.standard.standing !== 'read' &&
          '; from a recalled table: check it against your own copy of the standard'}
      </small>
    </>
  )
}
