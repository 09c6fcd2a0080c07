// The margins of one parameter, lot after lot: the middle cord, the one that a twentieth lie below, and the least.
import { scaleLinear, scalePoint } from 'd3-scale'
import { decibels } from '../figures.ts'

/** dB above the limit. */
export type LotMargin = { label: string; least: number; twentieth: number; middle: number }

type Props = { id: string; title: string; lots: LotMargin[] }

const width = 680
const height = 300
const left = 60
const right = 16
const top = 50
const bottom = 58

export function MarginsOverTime({ id, title, lots }: Props) {
  const y = scaleLinear(
    [Math.min(-0.5, ...lots.map(({ least }) => least)), Math.max(1, ...lots.map(({ middle }) => middle)) + 0.5],
    [height - bottom, top],
  ).nice(6)
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
        dB above the limit
      </text>
      {y.ticks(6).map((tick) => (
        <>
          <line class="tick" x1={left} x2={width - right} y1={at(y(tick))} y2={at(y(tick))} />
          <text class="soft" x={left - 8} y={at(y(tick) + 5)} text-anchor="end">
            {String(tick).replace('-', '\u2212')}
          </text>
        </>
      ))}
      <line class="limit" x1={left} x2={width - right} y1={at(y(0))} y2={at(y(0))} />
      <text x={width - right} y={at(y(0) - 5)} text-anchor="end">
        limit
      </text>
      {lots.map((lot, index) => (
        <>
          <Lot {...lot} x={at(x(index) ?? left)} y={y} />
          {index % everyNth === 0 && (
            <text class="soft" x={at(x(index) ?? left)} y={height - bottom + 28} text-anchor="middle">
              {lot.label}
            </text>
          )}
        </>
      ))}
      <text class="soft" x={width - right} y={height - 6} text-anchor="end">
        lot, oldest first
      </text>
    </svg>
  )
}

/** A ring for the middle, a stroke for the twentieth, a filled diamond for the least. */
function Lot({ least, twentieth, middle, x, y }: LotMargin & { x: number; y: (margin: number) => number }) {
  return (
    <>
      <line class="whisker" x1={x} x2={x} y1={at(y(least))} y2={at(y(middle))} />
      <circle class="point hollow" cx={x} cy={at(y(middle))} r={6} />
      <line class="bound" x1={x - 8} x2={x + 8} y1={at(y(twentieth))} y2={at(y(twentieth))} />
      <path class="point" d={`M${x} ${at(y(least) - 6)}l6 6l-6 6l-6 -6z`} />
    </>
  )
}

function inWords({ label, least, twentieth, middle }: LotMargin): string {
  return `lot ${label}: middle ${margin(middle)}, a twentieth of the cords at or below ${margin(twentieth)}, least ${margin(least)}`
}

/** A margin to two decimals, as the charts and their tables say it: +5.32 dB. */
export function margin(value: number): string {
  return decibels(value.toFixed(2))
}

const at = (value: number) => Math.round(value * 10) / 10
