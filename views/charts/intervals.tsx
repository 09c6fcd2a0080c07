// Shares of cords that do not conform, one row each, with their intervals.
import { scalePow } from 'd3-scale'
import { percent, percentAtLeast, percentAtMost, percentAtTick } from '../figures.ts'
import { FootTicks, Picture, tenth, ticksApart } from './frame.tsx'

/** One estimate with its limits, 0 to 1. */
export type Estimate = { mean: number; lower: number; upper: number }
export type IntervalRow = { name: string; note: string; share: Estimate }

type Props = { id: string; title: string; rows: IntervalRow[] }

const left = 14
const right = 656
const top = 62
const rowHeight = 64
const ticks = [0, 0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.1, 0.15, 0.25, 0.5, 0.75, 1]

/** The scale is the square root of the share, which gives the small ones room; it begins at 0. */
export function Intervals({ id, title, rows }: Props) {
  const highest = Math.max(0.01, ...rows.map(({ share }) => share.upper))
  const x = scalePow([0, highest], [left, right]).exponent(0.5)
  const bottom = top + rows.length * rowHeight
  const shown = ticksApart(ticks, x, highest, 54)
  return (
    <Picture id={id} title={title} description={rows.map(inWords).join('; ')} width={680} height={bottom + 10}>
      <text class="soft" x={left} y={20}>
        cords that do not conform, %
      </text>
      {shown.map((tick) => (
        <line class="tick" x1={tenth(x(tick))} x2={tenth(x(tick))} y1={top - 8} y2={bottom} />
      ))}
      <FootTicks ticks={shown} scale={x} label={percentAtTick} y={top - 14} />
      {rows.map((row, index) => (
        <Row {...row} x={x} y={top + index * rowHeight} />
      ))}
    </Picture>
  )
}

function Row({ name, note, share, x, y }: IntervalRow & { x: Placed['x']; y: number }) {
  return (
    <>
      <text class="name" x={left} y={y + 22}>
        {name}
      </text>
      <text class="soft" x={right} y={y + 22} text-anchor="end">
        {note}
      </text>
      <Share {...share} x={x} y={y + 42} />
    </>
  )
}

type Placed = Estimate & { x: (share: number) => number; y: number }

/** A filled square on a solid line. */
function Share({ mean, lower, upper, x, y }: Placed) {
  return (
    <>
      <line class="whisker" x1={tenth(x(lower))} x2={tenth(x(upper))} y1={y} y2={y} />
      <rect class="point" x={tenth(x(mean)) - 5} y={y - 5} width={10} height={10} />
    </>
  )
}

function inWords({ name, share }: IntervalRow): string {
  return `${name}: ${percent(share.mean)}, from ${percentAtLeast(share.lower)} to ${percentAtMost(share.upper)}`
}
