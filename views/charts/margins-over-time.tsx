// The margins of one parameter, lot after lot: the middle cord, the one that a twentieth lie below, and the least.
import { scaleLinear } from 'd3-scale'
import { atTick, decibelsToHundredth } from '../figures.ts'
import { LevelLine, LevelTicks, lotsInARow, Picture, tenth } from './frame.tsx'

/** dB above the limit. */
export type LotMargin = { label: string; minimum: number; percentile5: number; median: number }

type Props = { id: string; title: string; lots: LotMargin[] }

const height = 300
const field = { left: 60, right: 664, top: 50, bottom: 242 }

export function MarginsOverTime({ id, title, lots }: Props) {
  const lowest = Math.min(-0.5, ...lots.map(({ minimum }) => minimum))
  const highest = Math.max(1, ...lots.map(({ median }) => median)) + 0.5
  const y = scaleLinear([lowest, highest], [field.bottom, field.top]).nice(6)
  const row = lotsInARow(lots.length, field)
  return (
    <Picture id={id} title={title} description={lots.map(inWords).join('; ')} width={680} height={height}>
      <text class="soft" x={field.left - 46} y={20}>
        dB above the limit
      </text>
      <LevelTicks ticks={y.ticks(6)} scale={y} label={atTick} field={field} />
      <LevelLine class="limit" y={y(0)} field={field} />
      <text x={field.right} y={tenth(y(0) - 5)} text-anchor="end">
        limit
      </text>
      {lots.map((lot, index) => (
        <>
          <Lot {...lot} x={row.placeOf(index)} y={y} />
          {row.named(index) && (
            <text class="soft" x={row.placeOf(index)} y={field.bottom + 28} text-anchor="middle">
              {lot.label}
            </text>
          )}
        </>
      ))}
      <text class="soft" x={field.right} y={height - 6} text-anchor="end">
        lot, oldest first
      </text>
    </Picture>
  )
}

/** A ring for the middle, a stroke for the twentieth, a filled diamond for the least. */
function Lot({ minimum, percentile5, median, x, y }: LotMargin & { x: number; y: (margin: number) => number }) {
  return (
    <>
      <line class="whisker" x1={x} x2={x} y1={tenth(y(minimum))} y2={tenth(y(median))} />
      <circle class="point hollow" cx={x} cy={tenth(y(median))} r={6} />
      <line class="bound" x1={x - 8} x2={x + 8} y1={tenth(y(percentile5))} y2={tenth(y(percentile5))} />
      <path class="point" d={`M${x} ${tenth(y(minimum) - 6)}l6 6l-6 6l-6 -6z`} />
    </>
  )
}

function inWords({ label, minimum, percentile5, median }: LotMargin): string {
  return `lot ${label}: middle ${decibelsToHundredth(median)}, a twentieth of the cords at or below ${decibelsToHundredth(percentile5)}, least ${decibelsToHundredth(minimum)}`
}
