// The ways of testing side by side: what each does to a lot with too many and to a good one.
import type { Comparison, OpenAlternative } from '../../app/advisor/compare.ts'
import type { Question } from '../../app/advisor/question.ts'
import { expected, perHundred, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { nameOf, noteOf } from './words.ts'

type Props = {
  question: Question
  comparison: Comparison
}

/** The advised way stands first and is marked; the letters are those on the curves. */
export function OptionsTable({ question, comparison }: Props) {
  const { tooMany, good } = question
  const letters = lettersOfOpen(comparison)
  const columns = [
    { head: 'Way' },
    { head: 'Cords tested, at most' },
    { head: 'Allowed' },
    { head: `With ${whole(tooMany)}: slip through, of 100` },
    { head: `With only ${whole(good.nonconforming)}: rejected, of 100` },
    { head: 'Nonconforming cords put into use, average', short: 'Put into use, average' },
  ]
  const rows = comparison.alternatives
    .filter(({ kind }) => kind !== 'no-test')
    .map((way) => ({
      picked: way === comparison.advised,
      cells: [
        <WayName way={way} question={question} letter={letters.get(way)} advised={way === comparison.advised} />,
        <CordsTested way={way} />,
        allowedIn(way),
        perHundred(way.acceptance.yes, way.acceptance.no, 1 - question.confidence),
        perHundred(way.producersRisk.yes, way.producersRisk.no, good.demanded ? good.risk : 1),
        expected(way.averageOutgoing),
      ],
    }))
  return <DataTable ways columns={columns} rows={rows} />
}

/** A letter for each way that draws a sample: A, B, C … in the order of the table. */
export function lettersOfOpen({ alternatives }: Comparison): Map<OpenAlternative, string> {
  const sampled = alternatives.filter((way) => 'acceptanceNumber' in way)
  return new Map(sampled.map((way, at) => [way, String.fromCharCode(65 + at)]))
}

type NameProps = { way: OpenAlternative; question: Question; letter: string | undefined; advised: boolean }

function WayName({ way, question, letter, advised }: NameProps) {
  const note = [advised && 'recommended', noteOf(way, question)].filter(Boolean).join('; ')
  return (
    <>
      {letter && <span class="way-letter">{letter}</span>} {nameOf(way, question)}
      {note !== '' && <small>{note}</small>}
    </>
  )
}

function CordsTested({ way }: { way: OpenAlternative }) {
  if (!('average' in way)) return <>{whole(way.sampleSize)}</>
  return (
    <span>
      {whole(way.sampleSize)}
      <small>average {expected(way.average)}</small>
    </span>
  )
}

/** Of many looks the last one’s number, which none before exceeds. */
function allowedIn(way: OpenAlternative): string {
  if (!('stages' in way)) return '–'
  if (way.kind === 'groups') return `up to ${whole(way.acceptanceNumber)}`
  return way.stages.map((stage) => whole(stage.acceptanceNumber)).join(', then ')
}
