// The operating characteristics of the compared plans: picture, words and table.
import type { Comparison } from '../../app/advisor/compare.ts'
import type { Curve, Curves as CurveFacts, CurvePoint } from '../../app/advisor/curve.ts'
import type { Question } from '../../app/advisor/question.ts'
import { CurvesChart } from '../charts/curves.tsx'
import { counted, perHundred } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { lettersOfOpen } from './options.tsx'
import { nameOf, suchLots } from './words.ts'

type Props = { question: Question; comparison: Comparison; curves: CurveFacts }

export function CurveFigure({ question, comparison, curves }: Props) {
  const letters = lettersOfOpen(comparison)
  const drawn = curves.drawn.map(({ way, points }) => ({
    letter: letters.get(way) ?? '',
    points: points.map(({ nonconforming, accepted }) => ({ x: nonconforming, chance: accepted.yes })),
  }))
  const named = curves.drawn.map(({ way }) => `${letters.get(way)}: ${nameOf(way, question)}`)
  return (
    <figure class="chart">
      <CurvesChart
        title="Lots accepted, of 100, against nonconforming cords in the lot"
        description={curves.marked.map((curve) => inWords(curve, question, letters.get(curve.way))).join(' ')}
        curves={drawn}
        most={curves.most}
        lotSize={question.lotSize}
        tooMany={question.tooMany}
      />
      <figcaption>{named.join(' · ')}</figcaption>
      <details>
        <summary>As a table</summary>
        <CurveTable question={question} comparison={comparison} curves={curves} />
      </details>
    </figure>
  )
}

function inWords({ way, points }: Curve, question: Question, letter: string | undefined): string {
  const at = points.find(({ nonconforming }) => nonconforming === question.tooMany)
  const accepts = at ? accepted(at, question) : '–'
  return `${letter}, ${nameOf(way, question)}: accepts ${accepts} of 100 ${suchLots(question)}.`
}

/** Of 100; for lots with too many never rounded onto the wish. */
function accepted({ nonconforming, accepted: { yes, no } }: CurvePoint, { tooMany, confidence }: Question): string {
  return perHundred(yes, no, nonconforming >= tooMany ? 1 - confidence : 1)
}

function CurveTable({ question, comparison, curves }: Props) {
  const letters = lettersOfOpen(comparison)
  const numbers = curves.marked[0]?.points.map(({ nonconforming }) => nonconforming) ?? []
  const heads = curves.marked.map(({ way }) => ({ head: `${letters.get(way)}: ${nameOf(way, question)}` }))
  return (
    <DataTable
      compact
      caption="Lots accepted, of 100, by the number of nonconforming cords in the lot"
      columns={[{ head: 'The lot holds' }, ...heads]}
      rows={numbers.map((nonconforming, at) => ({
        picked: nonconforming === question.tooMany,
        cells: [
          counted(nonconforming, 'nonconforming cord'),
          ...curves.marked.map(({ points }) => {
            const point = points[at]
            return point ? accepted(point, question) : '–'
          }),
        ],
      }))}
    />
  )
}
