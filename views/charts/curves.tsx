// Operating characteristics in one picture: lots accepted, of 100, against the nonconforming cords in the lot.
import { scaleLinear } from 'd3-scale'
import { curveLinear, line } from 'd3-shape'
import { whole } from '../figures.ts'
import { FootTicks, Letter, LevelTicks, Picture, tenth } from './frame.tsx'

/** `letter` stands on the line and in the table of the ways. */
export type DrawnCurve = { letter: string; points: { x: number; chance: number }[] }

type Props = {
  title: string
  description: string
  curves: DrawnCurve[]
  most: number
  lotSize: number
  tooMany: number
}

const field = { left: 58, right: 620, top: 56, bottom: 284 }
const { left, right, top, bottom } = field

/** The letters stand at different heights, so that they keep apart where the lines run close. */
const heights = [0.86, 0.7, 0.54, 0.38, 0.22]
const dashes = ['line-a', 'line-b', 'line-c', 'line-d', 'line-e']

export function CurvesChart({ title, description, curves, most, lotSize, tooMany }: Props) {
  const x = scaleLinear().domain([0, most]).range([left, right])
  const y = scaleLinear().domain([0, 1]).range([bottom, top])
  const path = line<{ x: number; chance: number }>()
    .x((point) => x(point.x))
    .y((point) => y(point.chance))
    .curve(curveLinear)
    .digits(1)
  return (
    <Picture id="curves" title={title} description={description} width={640} height={340}>
      <text x={left - 46} y={16}>
        lots accepted, of 100
      </text>
      <LevelTicks ticks={[0, 0.25, 0.5, 0.75, 1]} scale={y} label={(chance) => chance * 100} field={field} />
      <FootTicks ticks={ticksUpTo(most)} scale={x} label={whole} y={bottom + 22} />
      <line class="limit" x1={tenth(x(tooMany))} x2={tenth(x(tooMany))} y1={top - 8} y2={bottom} />
      <text x={tenth(x(tooMany)) + 6} y={top - 8}>
        too many: {whole(tooMany)}
      </text>
      {curves.map((curve, at) => (
        <path class={`line ${dashes[at % dashes.length]}`} d={path(curve.points) ?? ''} />
      ))}
      {curves.map((curve, order) => {
        const { at, chance } = placeOf(curve, order)
        return <Letter letter={curve.letter} x={x(at)} y={y(chance)} radius={13} />
      })}
      <text x={right} y={bottom + 48} text-anchor="end">
        nonconforming cords in the lot of {whole(lotSize)}
      </text>
    </Picture>
  )
}

/** Where a falling line passes its letter's height; where it never falls so far, a place of its own near the right end. */
function placeOf({ points }: DrawnCurve, order: number): { at: number; chance: number } {
  const height = heights[order % heights.length] ?? 0.5
  for (const [i, point] of points.entries()) {
    const before = points[i - 1]
    if (point.chance > height || !before) continue
    const share = (before.chance - height) / (before.chance - point.chance)
    return { at: before.x + share * (point.x - before.x), chance: height }
  }
  const near = points[Math.round((points.length - 1) * (0.98 - 0.08 * order))]
  return { at: near?.x ?? 0, chance: near?.chance ?? 1 }
}

function ticksUpTo(most: number): number[] {
  return scaleLinear().domain([0, most]).ticks(5).filter(Number.isInteger)
}
