// Intervals foretold for the rest of each lot, and what came out.
import { scalePoint, scalePow } from 'd3-scale'
import { whole } from '../figures.ts'

/** Numbers of cords. */
export type ForetoldLot = { label: string; lower: number; upper: number; cameOut: number; covered: boolean }

type Props = { id: string; title: string; lots: ForetoldLot[] }

const width = 680
const height = 320
const left = 60
const right = 16
const top = 34
const bottom = 58
const ticks = [0, 1, 5, 10, 20, 50, 100, 200, 500, 1_000, 10_000, 100_000, 1_000_000]

/** The scale is the square root of the number, which gives the small ones room. */
export function Predictions({ id, title, lots }: Props) {
  const highest = Math.max(5, ...lots.map(({ upper, cameOut }) => Math.max(upper, cameOut)))
  const y = scalePow([0, highest], [height - bottom, top]).exponent(0.5)
  const x = scalePoint(
    lots.map((_, index) => index),
    [left, width - right],
  ).padding(0.6)
  const everyNth = Math.ceil(lots.length / 10)
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-desc`}>
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{lots.map(inWords).join('; ')}</desc>
      <text class="soft" x={left - 46} y={20}>
        cords of the rest that do not conform
      </text>
      {shown(y, highest).map((tick) => (
        <>
          <line class="tick" x1={left} x2={width - right} y1={at(y(tick))} y2={at(y(tick))} />
          <text class="soft" x={left - 8} y={at(y(tick) + 5)} text-anchor="end">
            {whole(tick)}
          </text>
        </>
      ))}
      {lots.map((lot, index) => {
        const middle = at(x(index) ?? left)
        return (
          <>
            <line class="whisker" x1={middle} x2={middle} y1={at(y(lot.lower))} y2={at(y(lot.upper))} />
            <line class="whisker" x1={middle - 6} x2={middle + 6} y1={at(y(lot.lower))} y2={at(y(lot.lower))} />
            <line class="whisker" x1={middle - 6} x2={middle + 6} y1={at(y(lot.upper))} y2={at(y(lot.upper))} />
            {lot.covered ? (
              <circle class="point hollow" cx={middle} cy={at(y(lot.cameOut))} r={6} />
            ) : (
              <path class="point" d={`M${middle} ${at(y(lot.cameOut) - 8)}l8 8l-8 8l-8 -8z`} />
            )}
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

/** Ticks far enough apart to be read on a telephone too. */
function shown(y: (cords: number) => number, highest: number): number[] {
  const kept: number[] = []
  for (const tick of ticks) {
    const before = kept.at(-1)
    if (tick <= highest && (before === undefined || y(before) - y(tick) > 26)) kept.push(tick)
  }
  return kept
}

function inWords({ label, lower, upper, cameOut, covered }: ForetoldLot): string {
  return `lot ${label}: ${whole(lower)} to ${whole(upper)} foretold, ${whole(cameOut)} came out${covered ? '' : ', outside'}`
}

const at = (value: number) => Math.round(value * 10) / 10
