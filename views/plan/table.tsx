// The ways of testing side by side: what each protects, and what it costs where something is believed of the supplier.
import type { Child } from 'hono/jsx'
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative, EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { amount, expected, frequency, whole } from '../figures.ts'
import { DataTable, type TableColumn } from '../table.tsx'
import { wayWords } from '../words/plans.ts'
import { ChooseWay, type Choosing } from './freeze.tsx'
import { doingOf, riskAllowed } from './words.ts'

type Props = {
  advice: Advice
  currency: string
  choosing: Choosing
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function WaysTable({ advice, currency, choosing, problems, typed }: Props) {
  const { alternatives, lot } = advice
  const letters = lettersOf(alternatives)
  const tooMany = whole(lot.terms.tooMany)
  return (
    <DataTable
      caption={captionOf(advice, currency)}
      columns={[
        { head: 'Way of testing' },
        { head: 'Cords tested for the verdict', short: 'Cords tested' },
        { head: `Lots with ${tooMany} that slip through`, short: `Slip through with ${tooMany}` },
        { head: 'Worst lot it lets through too often', short: 'Worst let through' },
        ...(advice.kind === 'priced' ? costColumns(advice, currency) : []),
        ...(choosing !== 'nothing' ? [{ head: <span class="hidden">Choice</span>, short: 'Choice' }] : []),
      ]}
      rows={alternatives.map((way) => ({
        picked: way === advice.recommendation.chosen,
        cells: [
          <Name way={way} letter={letters.get(way) ?? ''} advice={advice} />,
          ...protectionCells(way, lot),
          ...('cost' in way ? costCells(way) : []),
          ...(choosing !== 'nothing'
            ? [<ChooseWay way={way} advice={advice} choosing={choosing} problems={problems} typed={typed} />]
            : []),
        ],
      }))}
    />
  )
}

function captionOf(advice: Advice, currency: string): string {
  const stops =
    'Every way stops at its rejection number, and in a series not before the standard’s first fetch has ended.'
  if (advice.kind === 'protection')
    return `${stops} Chances are exact for a random draw from ${whole(advice.lot.size)}.`
  return `Costs are expected values for the supplier as described below, per lot of ${whole(advice.lot.size)}, in ${currency}: tests, cords that escape, lots sent back. ${stops} The average supposes that nonconforming cords may turn up anywhere among those tested; the bounds of the record do not. Replacements, credits and delay are left out.`
}

function costColumns({ requirements }: Advice, currency: string): TableColumn[] {
  return [
    { head: `Expected cost, ${currency}` },
    { head: 'of this: tests', short: 'of this for tests' },
    { head: 'escaped cords', short: 'for escaped cords' },
    {
      head: requirements.afterRejection === 'return' ? 'returned lots' : 'returned lots (none: screened)',
      short: 'for returned lots',
    },
    { head: 'Accepted, of such lots', short: 'Accepted' },
  ]
}

function costCells(way: EvaluatedAlternative): Child[] {
  const { total, testing, escapes, returns } = way.cost
  const accepted = way.kind === 'every-cord' ? 'cord by cord' : frequency(way.accepts, way.rejects)
  return [amount(total), amount(testing), amount(escapes), amount(returns), accepted]
}

function protectionCells(way: AssessedAlternative | EvaluatedAlternative, { size, terms }: Advice['lot']): Child[] {
  const slips = frequency(way.acceptance, way.rejection, riskAllowed(terms.catchOf100))
  return [
    <span>
      up to {whole(way.testsAtMost)}
      {'tests' in way && <small>{expected(way.tests)} on average</small>}
    </span>,
    way.protects ? slips : <b>{slips}</b>,
    way.detectsFrom === 0 ? 'none' : `${whole(way.detectsFrom)} of ${whole(size)}`,
  ]
}

/** A letter for each way, in the order of the table; the chart uses the same. */
export function lettersOf<Way extends AssessedAlternative>(ways: readonly Way[]): Map<AssessedAlternative, string> {
  return new Map(ways.map((way, at) => [way, String.fromCharCode(65 + at)]))
}

function Name({ way, letter, advice }: { way: AssessedAlternative; letter: string; advice: Advice }) {
  const { chosen } = advice.recommendation
  return (
    <>
      <span class="way-letter">{letter}</span> {wayWords[way.kind]}
      <small>
        {way === chosen && 'recommended; '}
        {doingOf(way)}
        {!way.protects && '; weaker than the item demands'}
        {way.standard &&
          way.standard.standing !== 'read' &&
          '; from a recalled table: check it against your own copy of the standard'}
      </small>
    </>
  )
}
