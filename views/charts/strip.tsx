// All cords of a lot in one picture: the tested in their states, the untested as dots, the bound as a bracket over as many of them.
import { PlacedShape } from '../marks.tsx'
import { tenth } from './frame.tsx'

type Props = { title: string; lotSize: number; tested: number; found: number; bound: number }

const perRow = 48
const cell = 13.3
const rowHeight = 19
const width = perRow * cell
/** Above this many cords a mark each would be dust: the three groups are drawn as lengths instead. */
const mostMarks = 960

export function Strip(props: Props) {
  return props.lotSize <= mostMarks ? <Marks {...props} /> : <Lengths {...props} />
}

function Marks({ title, lotSize, tested, found, bound }: Props) {
  const rows = Math.ceil(lotSize / perRow)
  return (
    <svg viewBox={`0 0 ${width} ${rows * rowHeight + 6}`} role="img" aria-label={title}>
      {Array.from({ length: lotSize }, (_, at) => (
        <PlacedShape state={stateOf(at, tested, found)} x={placeOf(at).x} y={placeOf(at).y} size={12} />
      ))}
      {bracketsOver(tested, bound).map((d) => (
        <path class="bracket" d={d} />
      ))}
    </svg>
  )
}

function Lengths({ title, lotSize, tested, found, bound }: Props) {
  const long = (cords: number) => tenth((cords / lotSize) * width)
  const untested = long(tested)
  return (
    <svg viewBox={`0 0 ${width} 34`} role="img" aria-label={title}>
      <rect
        class="shape does-not-conform"
        x="0"
        y="14"
        width={found > 0 ? Math.max(2, long(found)) : 0}
        height="16"
        fill="currentColor"
      />
      <rect
        class="shape conforms"
        x={long(found)}
        y="15"
        width={long(tested - found)}
        height="14"
        fill="none"
        stroke="currentColor"
        stroke-width="2"
      />
      <line
        class="shape not-tested"
        x1={untested}
        x2={width}
        y1="22"
        y2="22"
        stroke="currentColor"
        stroke-width="5"
        stroke-dasharray="5 8"
      />
      {bound > 0 && (
        <path class="bracket" d={`M${untested} 10V4H${Math.min(width, untested + Math.max(2, long(bound)))}V10`} />
      )}
    </svg>
  )
}

function stateOf(at: number, tested: number, found: number) {
  if (at < found) return 'does-not-conform'
  return at < tested ? 'conforms' : 'not-tested'
}

function placeOf(at: number): { x: number; y: number } {
  return { x: tenth((at % perRow) * cell) + 0.5, y: Math.floor(at / perRow) * rowHeight + 8 }
}

/** One line over each row's share of the bracket, with an end at its first and at its last cord. */
function bracketsOver(from: number, count: number): string[] {
  const paths: string[] = []
  const last = from + count - 1
  for (let at = from; at <= last; ) {
    const rowEnd = Math.min(last, at - (at % perRow) + perRow - 1)
    const { x, y } = placeOf(at)
    const right = placeOf(rowEnd).x + 12
    paths.push(`M${x - 1} ${y - 3}${at === from ? `v5v-5` : ''}H${right}${rowEnd === last ? 'v5' : ''}`)
    at = rowEnd + 1
  }
  return paths
}
