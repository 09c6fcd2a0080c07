// Counts as bars beside each other, each with its name and number.
import { scaleLinear } from 'd3-scale'
import { Picture, tenth } from './frame.tsx'

export type ShareBar = { name: string; count: number; said: string }

type Props = { id: string; title: string; bars: ShareBar[] }

const width = 680
const rowHeight = 54
const left = 4
const right = 676

export function Shares({ id, title, bars }: Props) {
  const x = scaleLinear([0, Math.max(1, ...bars.map(({ count }) => count))], [0, right - left])
  return (
    <Picture
      id={id}
      title={title}
      description={bars.map(({ name, said }) => `${name}: ${said}`).join('; ')}
      width={width}
      height={bars.length * rowHeight + 4}
    >
      {bars.map(({ name, count, said }, index) => (
        <>
          <text x={left} y={index * rowHeight + 22}>
            {name}
          </text>
          <text class="soft" x={right} y={index * rowHeight + 22} text-anchor="end">
            {said}
          </text>
          <rect class="share" x={left} y={index * rowHeight + 31} width={tenth(x(count))} height={13} />
          <line class="axis" x1={left} x2={left} y1={index * rowHeight + 27} y2={index * rowHeight + 48} />
        </>
      ))}
    </Picture>
  )
}
