// Both margins of the recorded cords against the limit, in pictures and in words.
import type { CordMargins, ShownMargins } from '../../../app/lots/evidence/margins.ts'
import { type MarginPoint, Margins } from '../../charts/margins.tsx'
import { counted, decibels, whole } from '../../figures.ts'
import { MarkKey } from '../../marks.tsx'

type Props = {
  margins: ShownMargins
  terms: { crosstalkAccuracy: string; returnLossAccuracy: string }
  lotId: number
}

export function MarginFigure({ margins: { cords: results, recorded }, terms, lotId }: Props) {
  return (
    <figure class="chart keep">
      <Parameter name="crosstalkMargin" label="Crosstalk" results={results} digits={terms.crosstalkAccuracy} />
      <Parameter name="returnLossMargin" label="Return loss" results={results} digits={terms.returnLossAccuracy} />
      <MarkKey />
      <figcaption>
        {results.length < recorded &&
          `Of ${counted(recorded, 'recorded cord')} the first ${whole(results.length)} of the draw are shown, a random sample of the lot. `}
        One mark a cord, by this margin alone; the shaded band is the tester’s accuracy above the limit. Every digit
        stands in <a href={`/lots/${lotId}/draw`}>the list of drawn cords</a>.
      </figcaption>
    </figure>
  )
}

type Reading = { position: number; digits: string; point: MarginPoint }
type ParameterProps = {
  name: 'crosstalkMargin' | 'returnLossMargin'
  label: string
  results: CordMargins[]
  digits: string
}

function Parameter({ name, label, results, digits }: ParameterProps) {
  const readings = results.flatMap((result): Reading[] => {
    const read = result[name]
    return read === undefined ? [] : [{ position: result.position, digits: read, point: pointOf(read, digits) }]
  })
  return (
    <>
      <p class="chart-name">{label}</p>
      <Margins
        id={name}
        title={`${label}: margins of ${counted(readings.length, 'cord')}`}
        description={inWords(readings)}
        points={readings.map((reading) => reading.point)}
        accuracyDigits={digits}
      />
    </>
  )
}

/** Where the mark stands; the cord's own state, by its raw digits, is on its page. */
function pointOf(read: string, accuracyDigits: string): MarginPoint {
  const margin = Number(read)
  if (margin < 0) return { margin, state: 'does-not-conform' }
  return { margin, state: margin < Number(accuracyDigits) ? 'marginal' : 'conforms' }
}

function inWords(readings: Reading[]): string {
  const of = (state: MarginPoint['state']) => whole(readings.filter(({ point }) => point.state === state).length)
  const [first] = readings
  if (!first) return 'No margin is recorded.'
  const worst = readings.reduce((low, each) => (each.point.margin < low.point.margin ? each : low), first)
  return `${of('does-not-conform')} short of the limit, ${of('marginal')} within the accuracy above it, ${of('conforms')} clear of it; the worst is ${decibels(worst.digits)} at cord ${whole(worst.position)}.`
}
