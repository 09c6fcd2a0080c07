// The ways of testing side by side: what each protects, and what it costs where something is believed of the supplier.
import type { Child } from 'hono/jsx'
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative, EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import { amount, expected, frequency, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { type Choosing, hindranceOf } from './freeze.tsx'
import { doingOf, goodIn, openedIn, slipsThrough, wayNameOf } from './words.ts'

type Props = {
  advice: Advice
  currency: string
  /** whether the reader chooses one of them here */
  choosing: Choosing
}

export function WaysTable({ advice, currency, choosing }: Props) {
  const { alternatives, lot, requirements } = advice
  const letters = lettersOf(alternatives)
  return (
    <DataTable
      ways
      columns={[
        { head: 'Way' },
        { head: 'Cords tested, at most' },
        { head: 'Allowed' },
        { head: `With ${whole(lot.terms.tooMany)}: slip through` },
        { head: `With only ${whole(goodIn(advice))}: rejected` },
        ...(advice.kind === 'priced' ? [{ head: `Expected cost, ${currency}` }] : []),
      ]}
      rows={alternatives.map((way) => ({
        picked: way === advice.recommendation.chosen,
        cells: [
          <Choice way={way} advice={advice} choosing={choosing}>
            <Name way={way} letter={letters.get(way) ?? ''} advice={advice} />
          </Choice>,
          ...protectionCells(way, { ...lot.terms, goodRisk: requirements.goodRisk }),
          ...('cost' in way ? [amount(way.cost.total)] : []),
        ],
      }))}
    />
  )
}

type Risks = { catchOf100: string; goodRisk: number }

function protectionCells(way: AssessedAlternative | EvaluatedAlternative, { catchOf100, goodRisk }: Risks): Child[] {
  const slips = slipsThrough(way, catchOf100)
  return [
    <span>
      {whole(way.testsAtMost)}
      {'tests' in way && <small>average {expected(way.tests)}</small>}
    </span>,
    allowedIn(way),
    way.protects ? slips : <b>{slips}</b>,
    frequency(way.rejectionOfGood, way.acceptanceOfGood, goodRisk),
  ]
}

/** The acceptance numbers of its stages. */
export function allowedIn({ kind, plan }: AssessedAlternative): string {
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

type ChoiceProps = { way: AssessedAlternative; advice: Advice; choosing: Choosing; children: Child }

/** The row's radio button, where the way can be chosen now; the recommended one is chosen already. */
function Choice({ way, advice, choosing, children }: ChoiceProps) {
  if (choosing === 'nothing' || hindranceOf(way, advice, choosing)) return <span>{children}</span>
  return (
    <label class="way">
      <input type="radio" name="kind" value={way.kind} checked={way === advice.recommendation.chosen} />
      <span>{children}</span>
    </label>
  )
}

function Name({ way, letter, advice }: { way: AssessedAlternative; letter: string; advice: Advice }) {
  const notes = [way === advice.recommendation.chosen && 'recommended', ...notesOf(way, advice)].filter(Boolean)
  return (
    <>
      <span class="way-letter">{letter}</span> {wayNameOf(way)}
      {notes.length > 0 && <small>{notes.join('; ')}</small>}
    </>
  )
}

/** What its figures do not say: how several samples go on, whether it needs a reason, where the standard's table is recalled. */
function notesOf(way: AssessedAlternative, advice: Advice): (string | false)[] {
  const { kind, plan, standard, protects } = way
  return [
    kind === 'groups' && `a verdict after each group that is clear; ${openedIn(advice)}`,
    kind === 'double' && firstThenMore(plan.stages),
    kind === 'every-cord' && 'keep what conforms',
    kind === 'contract' && doingOf(way),
    standard !== undefined && `code letter ${standard.codeLetter}`,
    !protects && plan.stages.length > 0 && 'weaker: needs a reason',
    standard !== undefined &&
      standard.standing !== 'read' &&
      'from a recalled table: check it against your own copy of the standard',
  ]
}

/** The two samples of a plan. */
function firstThenMore([first, second]: AssessedAlternative['plan']['stages']): string | false {
  return (
    first !== undefined &&
    second !== undefined &&
    `${whole(first.sampleSize)} first, ${whole(second.sampleSize - first.sampleSize)} more if undecided`
  )
}
