// What each way of a lot's plan is expected to cost at every share of nonconforming cords: a picture, and the same as a table.
import type { Advice } from '../../app/advice/advise.ts'
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
    letter: letters.get(way) ?? '',
    name: wayWords[way.kind],
    cents: sensitivity.costs.find(({ kind }) => kind === way.kind)?.cents ?? [],
  }))
  return (
    <>
      <h2>If the supplier is better or worse than so far</h2>
      <figure class="chart">
        <CostCurves
          title={`Expected cost of lot ${lot.id} by the share of nonconforming cords`}
          description={curves
            .map(
              ({ letter, name, cents }) =>
                `${letter}, ${name}: ${money(cents[0] ?? 0, currency)} at 0 %, ${money(cents.at(-1) ?? 0, currency)} at ${percent(fractions.at(-1) ?? 1)}`,
            )
            .join('; ')}
          fractions={fractions}
          curves={curves}
          belief={belief}
          breakEven={breakEven}
          currency={currency}
        />
        <figcaption>
          {curves.map(({ letter, name }) => `${letter}: ${name}`).join(' · ')}. Lines that leave at the top cost more
          than the picture shows. Below: the belief; the higher it stands, the more likely the share.
          {breakEven !== undefined && ' Break-even: there a test costs as much as letting the cord through.'}
        </figcaption>
      </figure>
      <CostsTable curves={curves} fractions={fractions} currency={currency} />
    </>
  )
}

type CostsTableProps = {
  curves: { letter: string; name: string; cents: number[] }[]
  fractions: number[]
  currency: string
}

function CostsTable({ curves, fractions, currency }: CostsTableProps) {
  const shown = fractions.map((fraction, at) => ({ fraction, at })).filter(({ at }) => at % 6 === 0)
  return (
    <details>
      <summary>The same as a table</summary>
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
