// A lot as a grid of its cords in their states, the cords of one sample underlined with a bar.
import { type CordStateMark, PlacedShape } from '../marks.tsx'
import { Picture } from './frame.tsx'

type Props = { id: string; title: string; description: string; states: CordStateMark[]; sample: number[] }

const columns = 40
const cell = 17
const rowHeight = 21

/** Position 1 stands first, reading order; `sample` holds positions. */
export function LotGrid({ id, title, description, states, sample }: Props) {
  const drawn = new Set(sample)
  const rows = Math.ceil(states.length / columns)
  return (
    <Picture id={id} title={title} description={description} width={columns * cell} height={rows * rowHeight}>
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
    </Picture>
  )
}
