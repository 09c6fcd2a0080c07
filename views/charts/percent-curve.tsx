// One quantity against the percentage of each lot that is tested, from 1 to 100.
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import { atTick } from '../figures.ts'
import { FootTicks, LevelTicks, Picture, tenth } from './frame.tsx'

type Props = {
  id: string
  title: string
  description: string
  /** what the vertical axis counts */
  unit: string
  /** values at 1, 2 … 100 percent */
  values: number[]
  /** the reader's percentage and its value */
  marked: { percent: number; value: number }
}

const field = { left: 56, right: 446, top: 36, bottom: 212 }
const { left, right, top, bottom } = field

export function PercentCurve({ id, title, description, unit, values, marked }: Props) {
  const x = scaleLinear([0, 100], [left, right])
  const y = scaleLinear([0, Math.max(...values, marked.value, 1e-9)], [bottom, top]).nice(4)
  const path = line<number>()
    .x((_, step) => x(step + 1))
    .y((value) => y(value))
    .digits(1)
  const [atX, atY] = [tenth(x(marked.percent)), tenth(y(marked.value))]
  return (
    <Picture id={id} title={title} description={description} width={480} height={266}>
      <text x={left - 46} y={16}>
        {unit}
      </text>
      <LevelTicks ticks={y.ticks(4)} scale={y} label={atTick} field={field} />
      <FootTicks ticks={[1, 25, 50, 75, 100]} scale={x} label={atTick} y={bottom + 20} />
      <path class="line" d={path(values) ?? ''} />
      <line class="limit" x1={atX} x2={atX} y1={top - 6} y2={bottom} />
      <circle class="point" cx={atX} cy={atY} r={5} />
      <text class="soft" x={right} y={bottom + 46} text-anchor="end">
        % of each lot tested
      </text>
    </Picture>
  )
}
