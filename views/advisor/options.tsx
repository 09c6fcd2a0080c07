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
  const { tooMany, good, lotSize } = question
  const letters = lettersOfOpen(comparison)
  const columns = [
    { head: 'Way of testing' },
    { head: 'Cords tested' },
    { head: 'Accepts if at most … do not conform', short: 'Accepts with at most' },
    {
      head: `Of 100 lots with too many (${whole(tooMany)}), slip through`,
      short: `Slip through, of 100 with ${whole(tooMany)}`,
    },
    {
      head: `Of 100 good lots (with ${whole(good.nonconforming)}), sent back`,
      short: `Sent back, of 100 with ${whole(good.nonconforming)}`,
    },
    {
      head: `Nonconforming cords shipped from a lot with ${whole(tooMany)}, on average`,
      short: `Shipped of ${whole(tooMany)}, on average`,
    },
  ]
  const rows = comparison.alternatives.map((way) => ({
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
  const caption = `Exact (hypergeometric) for a lot of ${whole(lotSize)} drawn at random. Testing stops once the lot is rejected: with none allowed, at the first cord that does not conform. Cords found not to conform are taken out; a rejected lot ships none.`
  return <DataTable caption={caption} columns={columns} rows={rows} />
}

/** A letter for each way that draws a sample: A, B, C … in the order of the table. */
export function lettersOfOpen({ alternatives }: Comparison): Map<OpenAlternative, string> {
  const sampled = alternatives.filter((way) => 'acceptanceNumber' in way)
  return new Map(sampled.map((way, at) => [way, String.fromCharCode(65 + at)]))
}

type NameProps = { way: OpenAlternative; question: Question; letter: string | undefined; advised: boolean }

function WayName({ way, question, letter, advised }: NameProps) {
  return (
    <>
      {letter && <span class="way-letter">{letter}</span>} {nameOf(way, question)}
      <small>
        {advised && 'advised; '}
        {noteOf(way, question)}
      </small>
    </>
  )
}

function CordsTested({ way }: { way: OpenAlternative }) {
  if (!('average' in way)) return <>{whole(way.sampleSize)}</>
  return (
    <span>
      up to {whole(way.sampleSize)}
      <small>{expected(way.average)} on average in such a lot</small>
    </span>
  )
}

/** Of many looks the last one’s number, which none before exceeds. */
function allowedIn(way: OpenAlternative): string {
  if (!('stages' in way)) return '–'
  if (way.kind === 'groups') return `up to ${whole(way.acceptanceNumber)}`
  return way.stages.map((stage) => whole(stage.acceptanceNumber)).join(', then ')
}
