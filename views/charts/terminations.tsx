// Cords that do not conform against terminations that do not: two plugs a cord, each fixed by itself.
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import { percent } from '../figures.ts'

/** points: the share of cords for shares of terminations, evenly from 0; marked: the history's own pair. */
type Props = { points: { termination: number; cords: number }[]; marked: { termination: number; cords: number } }

const width = 480
const height = 266
const left = 56
const right = 446
const top = 36
const bottom = 212

export function Terminations({ points, marked }: Props) {
  const end = points.at(-1) ?? marked
  const x = scaleLinear([0, end.termination], [left, right])
  const y = scaleLinear([0, end.cords], [bottom, top]).nice(4)
  const path = line<{ termination: number; cords: number }>()
    .x((point) => x(point.termination))
    .y((point) => y(point.cords))
    .digits(1)
  const [atX, atY] = [near(x(marked.termination)), near(y(marked.cords))]
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby="making-title" aria-describedby="making-desc">
      <title id="making-title">Share of cords by share of terminations that do not conform</title>
      <desc id="making-desc">
        Marked: {percent(marked.termination)} of terminations make {percent(marked.cords)} of cords, where the cable is
        sound.
      </desc>
      <text x={left - 46} y={16}>
        cords that do not conform, %
      </text>
      {y.ticks(4).map((tick) => (
        <>
          <line class="tick" x1={left} x2={right} y1={near(y(tick))} y2={near(y(tick))} />
          <text class="soft" x={left - 8} y={near(y(tick)) + 5} text-anchor="end">
            {Number((tick * 100).toPrecision(6))}
          </text>
        </>
      ))}
      {x.ticks(4).map((tick) => (
        <text class="soft" x={near(x(tick))} y={bottom + 20} text-anchor="middle">
          {Number((tick * 100).toPrecision(6))}
        </text>
      ))}
      <path class="line" d={path(points) ?? ''} />
      <line class="limit" x1={atX} x2={atX} y1={atY} y2={bottom} />
      <circle class="point" cx={atX} cy={atY} r={5} />
      <text class="soft" x={right} y={bottom + 46} text-anchor="end">
        terminations that do not conform, %
      </text>
    </svg>
  )
}

function near(value: number): number {
  return Math.round(value * 10) / 10
}
