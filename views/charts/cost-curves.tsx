// Expected cost of each way against the fraction nonconforming, the belief under it, and the break-even marked.
import { scaleLinear } from 'd3-scale'
import { area, line } from 'd3-shape'

export type CostCurve = { letter: string; cents: number[] }

type Props = {
  title: string
  description: string
  fractions: number[]
  curves: CostCurve[]
  belief: number[]
  breakEven: number | undefined
  currency: string
}

const width = 680
const height = 448
const left = 78
const right = 650
const top = 62
const bottom = 300
const floor = 388
const dashes = ['line-a', 'line-b', 'line-c', 'line-d', 'line-e', 'line-f', 'line-g', 'line-h']

export function CostCurves({ title, description, fractions, curves, belief, breakEven, currency }: Props) {
  const end = fractions.at(-1) ?? 1
  const x = scaleLinear([0, end], [left, right])
  const most = ceilingOf(curves)
  const y = scaleLinear([0, most], [bottom, top])
  const believed = scaleLinear([0, 1], [floor, bottom + 38])
  const path = line<number>()
    .x((_, step) => x(fractions[step] ?? 0))
    .y((cents) => y(cents))
    .defined((cents) => cents <= most)
    .digits(1)
  const hill = area<number>()
    .x((_, step) => x(fractions[step] ?? 0))
    .y0(floor)
    .y1((density) => believed(density))
    .digits(1)
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby="costs-title" aria-describedby="costs-text">
      <title id="costs-title">{title}</title>
      <desc id="costs-text">{description}</desc>
      <text x={left - 66} y={16}>
        expected cost of the lot, {currency}
      </text>
      {y.ticks(5).map((tick) => (
        <>
          <line class="tick" x1={left} x2={right} y1={near(y(tick))} y2={near(y(tick))} />
          <text class="soft" x={left - 8} y={near(y(tick)) + 5} text-anchor="end">
            {(tick / 100).toLocaleString('en')}
          </text>
        </>
      ))}
      {breakEven !== undefined && breakEven <= end && (
        <>
          <line class="limit" x1={near(x(breakEven))} x2={near(x(breakEven))} y1={top - 8} y2={floor} />
          <text x={near(x(breakEven)) + 6} y={top - 10}>
            break-even
          </text>
        </>
      )}
      {curves.map((curve, at) => (
        <path class={`line ${dashes[at % dashes.length]}`} d={path(curve.cents) ?? ''} />
      ))}
      {curves.map((curve, at) => {
        const last = curve.cents.findLastIndex((cents) => cents <= most)
        if (last < 0) return null // all of it costs more than the picture shows
        const step = Math.round(((at + 1) / (curves.length + 1)) * last)
        return (
          <g
            class="letter"
            transform={`translate(${near(x(fractions[step] ?? 0))} ${near(y(curve.cents[step] ?? 0))})`}
          >
            <circle r="12" />
            <text y="5">{curve.letter}</text>
          </g>
        )
      })}
      <path class="band hill" d={hill(belief) ?? ''} />
      <text class="soft" x={left - 66} y={bottom + 50}>
        belief
      </text>
      <line class="axis" x1={left} x2={right} y1={floor} y2={floor} />
      {x.ticks(6).map((tick) => (
        <text class="soft" x={near(x(tick))} y={floor + 22} text-anchor="middle">
          {Number((tick * 100).toPrecision(6))}
        </text>
      ))}
      <text x={right} y={floor + 50} text-anchor="end">
        cords that do not conform, % of the lot
      </text>
    </svg>
  )
}

/** Twice the cheapest way's dearest point: what costs more is cut off at the top, so that the lines that matter stay apart. */
function ceilingOf(curves: CostCurve[]): number {
  const dearest = curves.map((curve) => Math.max(...curve.cents))
  return Math.max(1, Math.min(Math.max(...dearest), 2 * Math.min(...dearest)))
}

function near(value: number): number {
  return Math.round(value * 10) / 10
}
