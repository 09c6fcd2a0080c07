// The margins of one parameter against the limit: a mark for each cord, the tester's accuracy shaded above the limit.
import { scaleLinear } from 'd3-scale'
import { accuracy, atTick, whole } from '../figures.ts'
import { type CordStateMark, PlacedShape } from '../marks.tsx'
import { FootTicks, Picture, tenth } from './frame.tsx'

/** dB above the limit, below it negative; `state` is that of this margin alone. */
export type MarginPoint = { margin: number; state: CordStateMark }

type Props = { id: string; title: string; description: string; points: MarginPoint[]; accuracyDigits: string }

const left = 10
const right = 630
const top = 26
const floor = 166
const height = 216
/** side of a mark, and of the bin that it stands in */
const side = 14
const mostInStack = Math.floor((floor - top) / side)

export function Margins({ id, title, description, points, accuracyDigits }: Props) {
  const band = Number(accuracyDigits)
  const margins = points.map((point) => point.margin)
  const x = scaleLinear()
    .domain([Math.min(-1, ...extremes(margins)), Math.max(band + 1, ...extremes(margins))])
    .range([left + side, right - side])
    .nice(8)
  const stacks = stacked(points, x)
  const highest = Math.max(1, ...stacks.map((stack) => stack.states.length))
  return (
    <Picture id={id} title={title} description={description} width={640} height={height}>
      <rect class="band" x={tenth(x(0))} y={top} width={tenth(x(band) - x(0))} height={floor - top} />
      <line class="axis" x1={left} x2={right} y1={floor} y2={floor} />
      <line class="limit" x1={tenth(x(0))} x2={tenth(x(0))} y1={top - 6} y2={floor + 6} />
      <text x={tenth(x(0)) - 6} y={16} text-anchor="end">
        limit
      </text>
      <text x={tenth(x(0)) + 6} y={16}>
        {accuracy(accuracyDigits)}
      </text>
      {stacks.map((stack) =>
        highest <= mostInStack ? <Marks {...stack} /> : <Column {...stack} tall={(floor - top) / highest} />,
      )}
      <FootTicks ticks={x.ticks(8)} scale={x} label={atTick} y={floor + 22} />
      <text x={right} y={height - 4} text-anchor="end">
        dB above the limit{highest > mostInStack ? `; tallest column ${whole(highest)} cords` : ''}
      </text>
    </Picture>
  )
}

type Stack = { x: number; states: CordStateMark[] }

function Marks({ x, states }: Stack) {
  return (
    <>
      {states.map((state, index) => (
        <PlacedShape state={state} x={x} y={floor - (index + 1) * side} size={side - 1} />
      ))}
    </>
  )
}

/** Too many cords for a mark each: the height of the column is their number. */
function Column({ x, states, tall }: Stack & { tall: number }) {
  let below = 0
  return (
    <>
      {order.map((state) => {
        const high = states.filter((each) => each === state).length * tall
        below += high
        return high === 0 ? null : (
          <rect class={`shape bar ${state}`} x={x} y={tenth(floor - below)} width={side - 1} height={tenth(high)} />
        )
      })}
    </>
  )
}

const order: CordStateMark[] = ['does-not-conform', 'marginal', 'conforms']

function stacked(points: MarginPoint[], x: (margin: number) => number): Stack[] {
  const bins = new Map<number, CordStateMark[]>()
  for (const { margin, state } of points) {
    // A bin never straddles the limit: marks left of the line are short of it, marks right of it are not.
    const bin = margin < 0 ? Math.ceil((x(0) - x(margin)) / side) * -1 : Math.floor((x(margin) - x(0)) / side)
    const states = bins.get(bin)
    if (states) states.push(state)
    else bins.set(bin, [state])
  }
  return [...bins].map(([bin, states]) => ({
    x: tenth(x(0) + bin * side),
    states: states.sort((one, other) => order.indexOf(one) - order.indexOf(other)),
  }))
}

function extremes(margins: number[]): number[] {
  let [least, most] = [0, 0]
  for (const margin of margins) {
    least = Math.min(least, margin)
    most = Math.max(most, margin)
  }
  return [least, most]
}
