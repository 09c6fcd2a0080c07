// What charts share: the picture with its name and its words, ticks, the names of axes, and lots in a row.
import { type ScalePoint, scalePoint } from 'd3-scale'
import type { Child } from 'hono/jsx'

/** Where the axes stand, in units of the picture. */
export type PlotField = { left: number; right: number; top: number; bottom: number }

type PictureProps = { id: string; title: string; description: Child; width: number; height: number; children?: Child }

/** A picture that says in words what it shows. */
export function Picture({ id, title, description, width, height, children }: PictureProps) {
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-desc`}>
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{description}</desc>
      {children}
    </svg>
  )
}

type TickProps = { ticks: number[]; scale: (value: number) => number; label: (tick: number) => Child }

/** A line across the picture for each tick of the upright axis, its number at the left. */
export function LevelTicks({ ticks, scale, label, field }: TickProps & { field: PlotField }) {
  return (
    <>
      {ticks.map((tick) => (
        <>
          <LevelLine class="tick" y={scale(tick)} field={field} />
          <text class="soft" x={field.left - 8} y={tenth(scale(tick) + 5)} text-anchor="end">
            {label(tick)}
          </text>
        </>
      ))}
    </>
  )
}

/** A line across the picture. */
export function LevelLine({
  class: name,
  y,
  field,
}: {
  class: string
  y: number
  field: Pick<PlotField, 'left' | 'right'>
}) {
  return <line class={name} x1={field.left} x2={field.right} y1={tenth(y)} y2={tenth(y)} />
}

/** The numbers below the level axis, their baseline at `y`. */
export function FootTicks({ ticks, scale, label, y }: TickProps & { y: number }) {
  return (
    <>
      {ticks.map((tick) => (
        <text class="soft" x={tenth(scale(tick))} y={y} text-anchor="middle">
          {label(tick)}
        </text>
      ))}
    </>
  )
}

type LotsInARow = { placeOf: (index: number) => number; step: number; named: (index: number) => boolean }

/** Lots one after the other, evenly; `named`: those with room for their label, of which about `mostLabels` are shown. */
export function lotsInARow(count: number, field: PlotField, { padding = 0.6, mostLabels = 10 } = {}): LotsInARow {
  const scale: ScalePoint<number> = scalePoint(
    Array.from({ length: count }, (_, index) => index),
    [field.left, field.right],
  ).padding(padding)
  const everyNth = Math.ceil(count / mostLabels)
  return {
    placeOf: (index) => tenth(scale(index) ?? field.left),
    step: scale.step(),
    named: (index) => index % everyNth === 0,
  }
}

/** An upright interval with a short stroke at each end. */
export function Whisker(props: { class: string; x: number; from: number; to: number; half: number }) {
  const { class: name, x, half } = props
  const [from, to] = [tenth(props.from), tenth(props.to)]
  return (
    <>
      <line class={name} x1={x} x2={x} y1={from} y2={to} />
      <line class={name} x1={x - half} x2={x + half} y1={from} y2={from} />
      <line class={name} x1={x - half} x2={x + half} y1={to} y2={to} />
    </>
  )
}

/** A letter in a ring, which names a line here and in the table beside it. */
export function Letter({ letter, x, y, radius }: { letter: string; x: number; y: number; radius: number }) {
  return (
    <g class="letter" transform={`translate(${tenth(x)} ${tenth(y)})`}>
      <circle r={radius} />
      <text y="5">{letter}</text>
    </g>
  )
}

/** Of these ticks up to the highest, those that stand far enough apart to be read on a telephone too. */
export function ticksApart(ticks: number[], scale: (value: number) => number, highest: number, gap: number): number[] {
  const kept: number[] = []
  for (const tick of ticks) {
    const before = kept.at(-1)
    if (tick <= highest && (before === undefined || Math.abs(scale(tick) - scale(before)) > gap)) kept.push(tick)
  }
  return kept
}

/** A place in the picture, to a tenth of its unit. */
export function tenth(value: number): number {
  return Math.round(value * 10) / 10
}
