// Shares of cords that do not conform, one row each, with their intervals: own data beside the estimate drawn towards all.
import { scalePow } from 'd3-scale'
import { percent, percentAtLeast, percentAtMost } from '../figures.ts'

/** One estimate with its limits, 0 to 1. */
export type Estimate = { mean: number; lower: number; upper: number }
/** `own` is undefined where nothing was tested. */
export type IntervalRow = { name: string; note: string; own: Estimate | undefined; together: Estimate }

type Props = { id: string; title: string; rows: IntervalRow[] }

const width = 680
const left = 14
const right = 656
const top = 62
const rowHeight = 84
const ticks = [0, 0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.1, 0.15, 0.25, 0.5, 0.75, 1]

/** The scale is the square root of the share, which gives the small ones room; it begins at 0. */
export function Intervals({ id, title, rows }: Props) {
  const highest = Math.max(0.01, ...rows.flatMap(({ own, together }) => [own?.upper ?? 0, together.upper]))
  const x = scalePow([0, highest], [left, right]).exponent(0.5)
  const bottom = top + rows.length * rowHeight
  return (
    <svg
      viewBox={`0 0 ${width} ${bottom + 10}`}
      role="img"
      aria-labelledby={`${id}-title`}
      aria-describedby={`${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{rows.map(inWords).join('; ')}</desc>
      <text class="soft" x={left} y={20}>
        cords that do not conform, %
      </text>
      {shown(x, highest).map((tick) => (
        <>
          <line class="tick" x1={at(x(tick))} x2={at(x(tick))} y1={top - 8} y2={bottom} />
          <text class="soft" x={at(x(tick))} y={top - 14} text-anchor="middle">
            {Number((tick * 100).toPrecision(3))}
          </text>
        </>
      ))}
      {rows.map((row, index) => {
        const y = top + index * rowHeight
        return (
          <>
            <text class="name" x={left} y={y + 22}>
              {row.name}
            </text>
            <text class="soft" x={right} y={y + 22} text-anchor="end">
              {row.note}
            </text>
            {row.own && <Own {...row.own} x={x} y={y + 42} />}
            <Together {...row.together} x={x} y={y + 62} />
          </>
        )
      })}
    </svg>
  )
}

type Placed = Estimate & { x: (share: number) => number; y: number }

/** A filled square on a solid line. */
function Own({ mean, lower, upper, x, y }: Placed) {
  return (
    <>
      <line class="whisker" x1={at(x(lower))} x2={at(x(upper))} y1={y} y2={y} />
      <rect class="point" x={at(x(mean)) - 5} y={y - 5} width={10} height={10} />
    </>
  )
}

/** A hollow ring on a dashed line. */
function Together({ mean, lower, upper, x, y }: Placed) {
  return (
    <>
      <line class="whisker drawn-together" x1={at(x(lower))} x2={at(x(upper))} y1={y} y2={y} />
      <circle class="point hollow" cx={at(x(mean))} cy={y} r={6} />
    </>
  )
}

/** Ticks far enough apart to be read on a telephone too. */
function shown(x: (share: number) => number, highest: number): number[] {
  const kept: number[] = []
  for (const tick of ticks) {
    const before = kept.at(-1)
    if (tick <= highest && (before === undefined || x(tick) - x(before) > 54)) kept.push(tick)
  }
  return kept
}

function inWords({ name, own, together }: IntervalRow): string {
  const drawn = `drawn towards all ${percent(together.mean)}, from ${percentAtLeast(together.lower)} to ${percentAtMost(together.upper)}`
  if (!own) return `${name}: nothing tested, ${drawn}`
  return `${name}: own ${percent(own.mean)}, from ${percentAtLeast(own.lower)} to ${percentAtMost(own.upper)}, ${drawn}`
}

const at = (value: number) => Math.round(value * 10) / 10
