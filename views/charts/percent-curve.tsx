// One quantity against the percentage of each lot that is tested, from 1 to 100.
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'

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

const width = 480
const height = 266
const left = 56
const right = 446
const top = 36
const bottom = 212

export function PercentCurve({ id, title, description, unit, values, marked }: Props) {
  const x = scaleLinear([0, 100], [left, right])
  const y = scaleLinear([0, Math.max(...values, marked.value, 1e-9)], [bottom, top]).nice(4)
  const path = line<number>()
    .x((_, step) => x(step + 1))
    .y((value) => y(value))
    .digits(1)
  const [atX, atY] = [near(x(marked.percent)), near(y(marked.value))]
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-desc`}>
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{description}</desc>
      <text x={left - 46} y={16}>
        {unit}
      </text>
      {y.ticks(4).map((tick) => (
        <>
          <line class="tick" x1={left} x2={right} y1={near(y(tick))} y2={near(y(tick))} />
          <text class="soft" x={left - 8} y={near(y(tick)) + 5} text-anchor="end">
            {Number(tick.toPrecision(6))}
          </text>
        </>
      ))}
      {[1, 25, 50, 75, 100].map((tick) => (
        <text class="soft" x={near(x(tick))} y={bottom + 20} text-anchor="middle">
          {tick}
        </text>
      ))}
      <path class="line" d={path(values) ?? ''} />
      <line class="limit" x1={atX} x2={atX} y1={top - 6} y2={bottom} />
      <circle class="point" cx={atX} cy={atY} r={5} />
      <text class="soft" x={right} y={bottom + 46} text-anchor="end">
        % of each lot tested
      </text>
    </svg>
  )
}

function near(value: number): number {
  return Math.round(value * 10) / 10
}
