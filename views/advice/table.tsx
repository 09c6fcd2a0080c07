// The ways of testing side by side: what each costs under the belief and what it protects.
import type { Child } from 'hono/jsx'
import type { Advice } from '../../app/advice/advise.ts'
import type { EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import { amount, expected, frequency, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { wayWords } from '../words/plans.ts'
import { FreezeWay } from './freeze.tsx'
import { doingOf, riskAllowed } from './words.ts'

type Props = { advice: Advice; currency: string; choosing: boolean }

export function WaysTable({ advice, currency, choosing }: Props) {
  const { alternatives, lot } = advice
  const letters = lettersOf(alternatives)
  const tooMany = whole(lot.terms.tooMany)
  return (
    <DataTable
      caption={`Costs are expected values under the belief above, per lot of ${whole(lot.size)}, in ${currency}: tests, cords that escape, lots sent back. Every way stops at its rejection number: the average supposes that nonconforming cords may turn up anywhere among those tested. Replacements, credits and delay are left out.`}
      columns={[
        { head: 'Way of testing' },
        { head: `Expected cost, ${currency}` },
        { head: 'of this: tests', short: 'of this for tests' },
        { head: 'escaped cords', short: 'for escaped cords' },
        {
          head: advice.requirements.afterRejection === 'return' ? 'returned lots' : 'returned lots (none: screened)',
          short: 'for returned lots',
        },
        { head: 'Accepted, of such lots', short: 'Accepted' },
        { head: 'Cords tested for the verdict', short: 'Cords tested' },
        { head: `Lots with ${tooMany} that slip through`, short: `Slip through with ${tooMany}` },
        { head: 'Worst lot it lets through too often', short: 'Worst let through' },
        ...(choosing ? [{ head: <span class="hidden">Choice</span>, short: 'Choice' }] : []),
      ]}
      rows={alternatives.map((way) => ({
        picked: way === advice.recommendation.chosen,
        cells: [
          <Name way={way} letter={letters.get(way) ?? ''} advice={advice} />,
          ...cellsOf(way, lot),
          ...(choosing ? [<FreezeWay way={way} lot={lot} critical={advice.critical} />] : []),
        ],
      }))}
    />
  )
}

function cellsOf(way: EvaluatedAlternative, { size, terms }: Advice['lot']): Child[] {
  const slips = frequency(way.acceptance, way.rejection, riskAllowed(terms.catchOf100))
  return [
    amount(way.cost.total),
    amount(way.cost.testing),
    amount(way.cost.escapes),
    amount(way.cost.returns),
    way.kind === 'every-cord' ? 'cord by cord' : frequency(way.accepts, way.rejects),
    <span>
      up to {whole(way.testsAtMost)}
      <small>{expected(way.tests)} on average</small>
    </span>,
    way.protects ? slips : <b>{slips}</b>,
    way.detectsFrom === 0 ? 'none' : `${whole(way.detectsFrom)} of ${whole(size)}`,
  ]
}

/** A letter for each way, in the order of the table; the chart uses the same. */
export function lettersOf(ways: EvaluatedAlternative[]): Map<EvaluatedAlternative, string> {
  return new Map(ways.map((way, at) => [way, String.fromCharCode(65 + at)]))
}

function Name({ way, letter, advice }: { way: EvaluatedAlternative; letter: string; advice: Advice }) {
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
