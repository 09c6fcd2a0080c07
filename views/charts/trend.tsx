// A series lot after lot against what its first lots let expect: each lot's share, and its limits.
import { scaleLinear } from 'd3-scale'
import { percent, percentAtTick } from '../figures.ts'
import { LevelLine, LevelTicks, lotsInARow, Picture, tenth } from './frame.tsx'

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

const height = 340
const field = { left: 60, right: 664, top: 34, bottom: 282 }

export function TrendChart({ id, title, lots, centre }: Props) {
  const highest = Math.max(0.005, ...lots.map(({ share, upper }) => Math.max(share, upper)))
  const y = scaleLinear([0, highest * 1.06], [field.bottom, field.top])
  const row = lotsInARow(lots.length, field)
  const half = Math.min(22, row.step / 2 - 2)
  const base = lots.filter(({ inBase }) => inBase).length
  const bandEnd = (base > 0 ? row.placeOf(base - 1) : field.left) + row.step / 2
  return (
    <Picture id={id} title={title} description={lots.map(inWords).join('; ')} width={680} height={height}>
      <rect
        class="band"
        x={field.left}
        y={field.top}
        width={tenth(bandEnd - field.left)}
        height={field.bottom - field.top}
      />
      <text class="soft" x={field.left - 46} y={20}>
        cords that do not conform, % of those counted
      </text>
      <LevelTicks ticks={y.ticks(5)} scale={y} label={percentAtTick} field={field} />
      <LevelLine class="centre" y={y(centre)} field={field} />
      {lots.map((lot, index) => (
        <>
          <Lot {...lot} x={row.placeOf(index)} y={y} half={half} />
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

/** The lot's limits, and its share between or beyond them. */
function Lot({ x, y, half, ...lot }: ChartedLot & { x: number; y: (share: number) => number; half: number }) {
  const across = { left: x - half, right: x + half }
  return (
    <>
      <LevelLine class="bound" y={y(lot.upper)} field={across} />
      {lot.lower > 0 && <LevelLine class="bound" y={y(lot.lower)} field={across} />}
      <Mark {...lot} x={x} y={tenth(y(lot.share))} />
    </>
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
