// What each way of a lot's plan is expected to cost at every share of nonconforming cords: a picture, and the same as a table.
import type { Advice } from '../../app/advice/advise.ts'
import type { AlternativeKind } from '../../app/advice/alternatives.ts'
import { CostCurves } from '../charts/cost-curves.tsx'
import { money, percent, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'
import { wayWords } from '../words/plans.ts'
import { lettersOf } from './table.tsx'

/** @param advice with costs */
export function CostsOfWays({ advice, currency }: { advice: Extract<Advice, { kind: 'priced' }>; currency: string }) {
  const { alternatives, sensitivity, lot } = advice
  const letters = lettersOf(alternatives)
  const { fractions, belief, breakEven } = sensitivity
  const curves = alternatives.map((way) => ({
    way,
    letter: letters.get(way) ?? '',
    name: wayWords[way.kind],
    cents: sensitivity.costs.find(({ kind }) => kind === way.kind)?.cents ?? [],
  }))
  const shown = [advice.recommendation.chosen, ...alternatives.filter(({ kind }) => drawnBeside.has(kind))]
  const drawn = curves.filter(({ way }) => shown.includes(way))
  return (
    <>
      <h2>If the supplier is better or worse than so far: expected cost, {currency}</h2>
      <figure class="chart">
        <CostCurves
          title={`Expected cost of lot ${lot.id} by the share of nonconforming cords`}
          description={drawn
            .map(
              ({ letter, name, cents }) =>
                `${letter}, ${name}: ${money(cents[0] ?? 0, currency)} at 0 %, ${money(cents.at(-1) ?? 0, currency)} at ${percent(fractions.at(-1) ?? 1)}`,
            )
            .join('; ')}
          fractions={fractions}
          curves={drawn}
          belief={belief}
          breakEven={breakEven}
          currency={currency}
        />
        <figcaption>
          {drawn.map(({ letter, name }) => `${letter}: ${name}`).join(' · ')}. The hill: how likely each share is.
        </figcaption>
      </figure>
      <CostsTable curves={curves} fractions={fractions} currency={currency} />
    </>
  )
}

/** The recommended way is drawn beside these; all stand in the table. */
const drawnBeside = new Set<AlternativeKind>(['percentage', 'every-cord'])

type CostsTableProps = {
  curves: { letter: string; name: string; cents: number[] }[]
  fractions: number[]
  currency: string
}

function CostsTable({ curves, fractions, currency }: CostsTableProps) {
  const shown = fractions.map((fraction, at) => ({ fraction, at })).filter(({ at }) => at % 6 === 0)
  return (
    <details>
      <summary>As a table, for every way</summary>
      <DataTable
        compact
        columns={[
          { head: 'Share nonconforming' },
          ...curves.map(({ letter, name }) => ({ head: `${letter}: ${name}, ${currency}` })),
        ]}
        rows={shown.map(({ fraction, at }) => ({
          cells: [percent(fraction), ...curves.map(({ cents }) => whole(Math.round((cents[at] ?? 0) / 100)))],
        }))}
      />
    </details>
  )
}
