// A chance as a hundred lots: filled squares are those of which the statement holds.
import { Picture } from './frame.tsx'

type Props = { id: string; title: string; description: string; chance: number }

const columns = 20
const step = 17

/** A square is filled for each whole lot of a hundred; a chance below one half of a hundredth fills none, and the words beside it say it. */
export function HundredLots({ id, title, description, chance }: Props) {
  const filled = Math.round(chance * 100)
  return (
    <Picture id={id} title={title} description={description} width={columns * step} height={5 * step}>
      {Array.from({ length: 100 }, (_, lot) => (
        <rect
          class={lot < filled ? 'square held' : 'square'}
          x={(lot % columns) * step + 2}
          y={Math.floor(lot / columns) * step + 2}
          width={12}
          height={12}
        />
      ))}
    </Picture>
  )
}
