// A supplier's lots one after the other: what was found of each, with the interval that it proves.
import { scaleLinear } from 'd3-scale'
import { percent, percentAtLeast, percentAtMost, percentAtTick } from '../figures.ts'
import { LevelTicks, lotsInARow, Picture, tenth, Whisker } from './frame.tsx'

/** `label` names the lot below its place; `fraction` is undefined where testing stopped early and no fair estimate exists. */
export type LotPoint = {
  label: string
  fraction: number | undefined
  lower: number
  upper: number
  /** every cord recorded: the fraction is known */
  whole: boolean
}

const height = 320
const field = { left: 56, right: 664, top: 28, bottom: 276 }

type Props = { title: string; points: LotPoint[]; id: string }

/** Fractions nonconforming in percent, oldest lot first; the whiskers are the intervals, a filled bar a lot known whole. */
export function LotsOverTime({ title, points, id }: Props) {
  const highest = Math.max(0.01, ...points.map((point) => point.upper))
  const y = scaleLinear([0, highest], [field.bottom, field.top]).nice(5)
  const row = lotsInARow(points.length, field, { padding: 0.5, mostLabels: 14 })
  return (
    <Picture id={id} title={title} description={points.map(inWords).join('; ')} width={680} height={height}>
      <text class="soft" x={field.left} y={14}>
        cords that do not conform, % of the lot
      </text>
      <LevelTicks ticks={y.ticks(5)} scale={y} label={percentAtTick} field={field} />
      {points.map((point, index) => {
        const x = row.placeOf(index)
        return (
          <>
            <Whisker class="line" x={x} from={y(point.lower)} to={y(point.upper)} half={5} />
            {point.fraction !== undefined && <Estimate x={x} y={tenth(y(point.fraction))} whole={point.whole} />}
            {row.named(index) && (
              <text class="soft" x={x} y={field.bottom + 20} text-anchor="middle">
                {point.label}
              </text>
            )}
          </>
        )
      })}
      <text class="soft" x={field.right} y={height - 4} text-anchor="end">
        lot, oldest first
      </text>
    </Picture>
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
