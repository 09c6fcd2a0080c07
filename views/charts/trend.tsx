// A series lot after lot against what its first lots let expect: each lot's share, and its limits.
import { scaleLinear, scalePoint } from 'd3-scale'
import { percent } from '../figures.ts'

/** `lower` and `upper` are its limits, shares too; `signal`: where the lot lies outside them, or the cumulative sum speaks. */
export type ChartedLot = {
  label: string
  share: number
  lower: number
  upper: number
  signal: 'above' | 'below' | 'sum' | 'none'
  /** testing stopped: at least so many */
  stopped: boolean
  inBase: boolean
}

type Props = { id: string; title: string; lots: ChartedLot[]; centre: number }

const width = 680
const height = 340
const left = 60
const right = 16
const top = 34
const bottom = 58

export function TrendChart({ id, title, lots, centre }: Props) {
  const highest = Math.max(0.005, ...lots.map(({ share, upper }) => Math.max(share, upper)))
  const y = scaleLinear([0, highest * 1.06], [height - bottom, top])
  const x = scalePoint(
    lots.map((_, index) => index),
    [left, width - right],
  ).padding(0.6)
  const half = Math.min(22, x.step() / 2 - 2)
  const base = lots.filter(({ inBase }) => inBase).length
  const everyNth = Math.ceil(lots.length / 10)
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-desc`}>
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{lots.map(inWords).join('; ')}</desc>
      <rect
        class="band"
        x={left}
        y={top}
        width={at((x(base - 1) ?? left) + x.step() / 2 - left)}
        height={height - bottom - top}
      />
      <text class="soft" x={left - 46} y={20}>
        cords that do not conform, % of those counted
      </text>
      {y.ticks(5).map((tick) => (
        <>
          <line class="tick" x1={left} x2={width - right} y1={at(y(tick))} y2={at(y(tick))} />
          <text class="soft" x={left - 8} y={at(y(tick) + 5)} text-anchor="end">
            {Number((tick * 100).toPrecision(4))}
          </text>
        </>
      ))}
      <line class="centre" x1={left} x2={width - right} y1={at(y(centre))} y2={at(y(centre))} />
      {lots.map((lot, index) => {
        const middle = at(x(index) ?? left)
        return (
          <>
            <line class="bound" x1={middle - half} x2={middle + half} y1={at(y(lot.upper))} y2={at(y(lot.upper))} />
            {lot.lower > 0 && (
              <line class="bound" x1={middle - half} x2={middle + half} y1={at(y(lot.lower))} y2={at(y(lot.lower))} />
            )}
            <Mark {...lot} x={middle} y={at(y(lot.share))} />
            {index % everyNth === 0 && (
              <text class="soft" x={middle} y={height - bottom + 28} text-anchor="middle">
                {lot.label}
              </text>
            )}
          </>
        )
      })}
      <text class="soft" x={width - right} y={height - 6} text-anchor="end">
        lot, oldest first
      </text>
    </svg>
  )
}

/** A ring within the limits, a filled diamond above, a filled square below, a filled triangle for the sum; an arrow: at least. */
function Mark({ signal, stopped, x, y }: ChartedLot & { x: number; y: number }) {
  return (
    <>
      {stopped && <path class="line" d={`M${x} ${y - 8}V${y - 22}m-5 6l5 -6l5 6`} />}
      <Shape signal={signal} x={x} y={y} />
    </>
  )
}

function Shape({ signal, x, y }: { signal: ChartedLot['signal']; x: number; y: number }) {
  switch (signal) {
    case 'none':
      return <circle class="point hollow" cx={x} cy={y} r={6} />
    case 'above':
      return <path class="point" d={`M${x} ${y - 8}l8 8l-8 8l-8 -8z`} />
    case 'below':
      return <rect class="point" x={x - 6} y={y - 6} width={12} height={12} />
    case 'sum':
      return <path class="point" d={`M${x} ${y - 8}l8 14h-16z`} />
  }
}

function inWords({ label, share, upper, signal, stopped, inBase }: ChartedLot): string {
  const said = {
    none: 'within its limits',
    above: 'above its limits',
    below: 'below its limits',
    sum: 'within its limits, the cumulative sum signals',
  }[signal]
  const first = inBase ? ', one of the first lots' : ''
  return `lot ${label}: ${stopped ? 'at least ' : ''}${percent(share)}, up to ${percent(upper)} expected, ${said}${first}`
}

const at = (value: number) => Math.round(value * 10) / 10
