// Intervals predicted for the rest of each lot, and what was observed.
import { scalePow } from 'd3-scale'
import { whole } from '../figures.ts'
import { LevelTicks, lotsInARow, Picture, tenth, ticksApart, Whisker } from './frame.tsx'

/** Numbers of cords. */
export type PlacedLot = { label: string; lower: number; upper: number; observed: number; covered: boolean }

type Props = { id: string; title: string; lots: PlacedLot[] }

const height = 320
const field = { left: 60, right: 664, top: 34, bottom: 262 }
const ticks = [0, 1, 5, 10, 20, 50, 100, 200, 500, 1_000, 10_000, 100_000, 1_000_000]

/** The scale is the square root of the number, which gives the small ones room. */
export function Predictions({ id, title, lots }: Props) {
  const highest = Math.max(5, ...lots.map(({ upper, observed }) => Math.max(upper, observed)))
  const y = scalePow([0, highest], [field.bottom, field.top]).exponent(0.5)
  const row = lotsInARow(lots.length, field)
  return (
    <Picture id={id} title={title} description={lots.map(inWords).join('; ')} width={680} height={height}>
      <text class="soft" x={field.left - 46} y={20}>
        cords of the rest that do not conform
      </text>
      <LevelTicks ticks={ticksApart(ticks, y, highest, 26)} scale={y} label={whole} field={field} />
      {lots.map((lot, index) => {
        const x = row.placeOf(index)
        return (
          <>
            <Whisker class="whisker" x={x} from={y(lot.lower)} to={y(lot.upper)} half={6} />
            <Observed x={x} y={y(lot.observed)} covered={lot.covered} />
            {row.named(index) && (
              <text class="soft" x={x} y={field.bottom + 28} text-anchor="middle">
                {lot.label}
              </text>
            )}
          </>
        )
      })}
      <text class="soft" x={field.right} y={height - 6} text-anchor="end">
        lot, oldest first
      </text>
    </Picture>
  )
}

/** A ring inside its interval, a filled diamond outside. */
function Observed({ x, y, covered }: { x: number; y: number; covered: boolean }) {
  if (covered) return <circle class="point hollow" cx={x} cy={tenth(y)} r={6} />
  return <path class="point" d={`M${x} ${tenth(y - 8)}l8 8l-8 8l-8 -8z`} />
}

function inWords({ label, lower, upper, observed, covered }: PlacedLot): string {
  return `lot ${label}: ${whole(lower)} to ${whole(upper)} predicted, ${whole(observed)} found${covered ? '' : ', outside'}`
}
