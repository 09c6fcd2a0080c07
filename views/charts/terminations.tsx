// Cords that do not conform against terminations that do not: two plugs a cord, each fixed by itself.
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import { percent, percentAtTick } from '../figures.ts'
import { FootTicks, LevelTicks, Picture, tenth } from './frame.tsx'

/** points: the share of cords for shares of terminations, evenly from 0; marked: the history's own pair. */
type Props = { points: { termination: number; cords: number }[]; marked: { termination: number; cords: number } }

const field = { left: 56, right: 446, top: 36, bottom: 212 }
const { left, right, top, bottom } = field

export function Terminations({ points, marked }: Props) {
  const end = points.at(-1) ?? marked
  const x = scaleLinear([0, end.termination], [left, right])
  const y = scaleLinear([0, end.cords], [bottom, top]).nice(4)
  const path = line<{ termination: number; cords: number }>()
    .x((point) => x(point.termination))
    .y((point) => y(point.cords))
    .digits(1)
  const [atX, atY] = [tenth(x(marked.termination)), tenth(y(marked.cords))]
  return (
    <Picture
      id="making"
      title="Share of cords by share of terminations that do not conform"
      description={`Marked: ${percent(marked.termination)} of terminations make ${percent(marked.cords)} of cords, where the cable is sound.`}
      width={480}
      height={266}
    >
      <text x={left - 46} y={16}>
        cords that do not conform, %
      </text>
      <LevelTicks ticks={y.ticks(4)} scale={y} label={percentAtTick} field={field} />
      <FootTicks ticks={x.ticks(4)} scale={x} label={percentAtTick} y={bottom + 20} />
      <path class="line" d={path(points) ?? ''} />
      <line class="limit" x1={atX} x2={atX} y1={atY} y2={bottom} />
      <circle class="point" cx={atX} cy={atY} r={5} />
      <text class="soft" x={right} y={bottom + 46} text-anchor="end">
        terminations that do not conform, %
      </text>
    </Picture>
  )
}
