// A lot as a grid of its cords in their states, the cords of one sample underlined with a bar.
import { type CordStateMark, PlacedShape } from '../marks.tsx'

type Props = { id: string; title: string; description: string; states: CordStateMark[]; sample: number[] }

const columns = 40
const cell = 17
const rowHeight = 21

/** Position 1 stands first, reading order; `sample` holds positions. */
export function LotGrid({ id, title, description, states, sample }: Props) {
  const drawn = new Set(sample)
  const rows = Math.ceil(states.length / columns)
  return (
    <svg
      viewBox={`0 0 ${columns * cell} ${rows * rowHeight}`}
      role="img"
      aria-labelledby={`${id}-title`}
      aria-describedby={`${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{description}</desc>
      {states.map((state, index) => {
        const x = (index % columns) * cell
        const y = Math.floor(index / columns) * rowHeight
        return (
          <>
            <PlacedShape state={state} x={x + 2} y={y + 1} size={13} />
            {drawn.has(index + 1) && <rect class="drawn" x={x} y={y + 16} width={cell} height={3} />}
          </>
        )
      })}
    </svg>
  )
}
