// A supplier's lots one after the other: what was found of each, with the interval that it proves.
import { scaleLinear, scalePoint } from 'd3-scale'
import { percent, percentAtLeast, percentAtMost } from '../figures.ts'

/** `label` names the lot below its place; `fraction` is undefined where testing stopped early and no fair estimate exists. */
export type LotPoint = {
  label: string
  fraction: number | undefined
  lower: number
  upper: number
  /** every cord recorded: the fraction is known */
  whole: boolean
}

const width = 680
const height = 320
const left = 56
const right = 16
const top = 28
const bottom = 44

type Props = { title: string; points: LotPoint[]; id: string }

/** Fractions nonconforming in percent, oldest lot first; the whiskers are the intervals, a filled bar a lot known whole. */
export function LotsOverTime({ title, points, id }: Props) {
  const highest = Math.max(0.01, ...points.map((point) => point.upper))
  const y = scaleLinear([0, highest], [height - bottom, top]).nice(5)
  const x = scalePoint(
    points.map((_, at) => at),
    [left, width - right],
  ).padding(0.5)
  const everyNth = Math.ceil(points.length / 14)
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-desc`}>
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{points.map(inWords).join('; ')}</desc>
      <text class="soft" x={left} y={14}>
        cords that do not conform, % of the lot
      </text>
      {y.ticks(5).map((tick) => (
        <>
          <line class="tick" x1={left} x2={width - right} y1={at(y(tick))} y2={at(y(tick))} />
          <text class="soft" x={left - 8} y={at(y(tick) + 5)} text-anchor="end">
            {Number((tick * 100).toPrecision(6))}
          </text>
        </>
      ))}
      {points.map((point, index) => {
        const middle = at(x(index) ?? left)
        return (
          <>
            <line class="line" x1={middle} x2={middle} y1={at(y(point.lower))} y2={at(y(point.upper))} />
            <line class="line" x1={middle - 5} x2={middle + 5} y1={at(y(point.lower))} y2={at(y(point.lower))} />
            <line class="line" x1={middle - 5} x2={middle + 5} y1={at(y(point.upper))} y2={at(y(point.upper))} />
            {point.fraction !== undefined && <Estimate x={middle} y={at(y(point.fraction))} whole={point.whole} />}
            {index % everyNth === 0 && (
              <text class="soft" x={middle} y={height - bottom + 20} text-anchor="middle">
                {point.label}
              </text>
            )}
          </>
        )
      })}
      <text class="soft" x={width - right} y={height - 4} text-anchor="end">
        lot, oldest first
      </text>
    </svg>
  )
}

/** A bar for a lot known whole, a short stroke across the whisker for an estimate from a sample. */
function Estimate({ x, y, whole }: { x: number; y: number; whole: boolean }) {
  return whole ? (
    <rect class="known" x={x - 8} y={y - 4} width={16} height={8} />
  ) : (
    <line class="estimate" x1={x - 8} x2={x + 8} y1={y} y2={y} />
  )
}

function inWords(point: LotPoint): string {
  const between = `from ${percentAtLeast(point.lower)} to ${percentAtMost(point.upper)}`
  if (point.fraction === undefined) return `lot ${point.label}: stopped early, ${between}`
  return point.whole
    ? `lot ${point.label}: ${percent(point.fraction)}, every cord known`
    : `lot ${point.label}: ${percent(point.fraction)} of the sample, ${between}`
}

const at = (value: number) => Math.round(value * 10) / 10
