// Expected cost of each way against the fraction nonconforming, the belief under it, and the break-even marked.
import { scaleLinear } from 'd3-scale'
import { area, line } from 'd3-shape'
import { moneyAtTick, percentAtTick } from '../figures.ts'
import { FootTicks, Letter, LevelTicks, Picture, tenth } from './frame.tsx'

export type CostCurve = { letter: string; cents: number[] }

type Props = {
  title: string
  description: string
  fractions: number[]
  curves: CostCurve[]
  belief: number[]
  breakEven: number | undefined
  currency: string
}

const field = { left: 78, right: 650, top: 62, bottom: 300 }
const { left, right, top, bottom } = field
const floor = 388
const dashes = ['line-a', 'line-b', 'line-c', 'line-d', 'line-e', 'line-f', 'line-g', 'line-h']

export function CostCurves(props: Props) {
  const { title, description, fractions, curves, belief, breakEven, currency } = props
  const end = fractions.at(-1) ?? 1
  const x = scaleLinear([0, end], [left, right])
  const most = ceilingOf(curves)
  const y = scaleLinear([0, most], [bottom, top])
  return (
    <Picture id="costs" title={title} description={description} width={680} height={448}>
      <text x={left - 66} y={16}>
        expected cost of the lot, {currency}
      </text>
      <LevelTicks ticks={y.ticks(5)} scale={y} label={moneyAtTick} field={field} />
      {breakEven !== undefined && breakEven <= end && <BreakEven x={tenth(x(breakEven))} />}
      <Lines fractions={fractions} curves={curves} most={most} x={x} y={y} />
      <Belief fractions={fractions} density={belief} x={x} />
      <line class="axis" x1={left} x2={right} y1={floor} y2={floor} />
      <FootTicks ticks={x.ticks(6)} scale={x} label={percentAtTick} y={floor + 22} />
      <text x={right} y={floor + 50} text-anchor="end">
        cords that do not conform, % of the lot
      </text>
    </Picture>
  )
}

type Scale = (value: number) => number

function BreakEven({ x }: { x: number }) {
  return (
    <>
      <line class="limit" x1={x} x2={x} y1={top - 8} y2={floor} />
      <text x={x + 6} y={top - 10}>
        break-even
      </text>
    </>
  )
}

type LinesProps = Pick<Props, 'fractions' | 'curves'> & { most: number; x: Scale; y: Scale }

/** What costs more than the picture shows is left out; the letters stand at different places, so that they keep apart. */
function Lines({ fractions, curves, most, x, y }: LinesProps) {
  const path = line<number>()
    .x((_, step) => x(fractions[step] ?? 0))
    .y((cents) => y(cents))
    .defined((cents) => cents <= most)
    .digits(1)
  return (
    <>
      {curves.map((curve, at) => (
        <path class={`line ${dashes[at % dashes.length]}`} d={path(curve.cents) ?? ''} />
      ))}
      {curves.map((curve, at) => {
        const last = curve.cents.findLastIndex((cents) => cents <= most)
        if (last < 0) return null
        const step = Math.round(((at + 1) / (curves.length + 1)) * last)
        return <Letter letter={curve.letter} x={x(fractions[step] ?? 0)} y={y(curve.cents[step] ?? 0)} radius={12} />
      })}
    </>
  )
}

/** The belief about the fraction, as a hill under the lines; its height has no scale. */
function Belief({ fractions, density, x }: { fractions: number[]; density: number[]; x: Scale }) {
  const height = scaleLinear([0, 1], [floor, bottom + 38])
  const hill = area<number>()
    .x((_, step) => x(fractions[step] ?? 0))
    .y0(floor)
    .y1((each) => height(each))
    .digits(1)
  return (
    <>
      <path class="band hill" d={hill(density) ?? ''} />
      <text class="soft" x={left - 66} y={bottom + 50}>
        belief
      </text>
    </>
  )
}

/** Twice the cheapest way's dearest point: what costs more is cut off at the top, so that the lines that matter stay apart. */
function ceilingOf(curves: CostCurve[]): number {
  const dearest = curves.map((curve) => Math.max(...curve.cents))
  return Math.max(1, Math.min(Math.max(...dearest), 2 * Math.min(...dearest)))
}
