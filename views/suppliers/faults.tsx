// What is wrong with a supplier's cords: by parameter and by failure mode.
import type { FaultShares } from '../../app/history/supplier-page-sums.ts'
import { Shares } from '../charts/shares.tsx'
import { counted, percent, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

export function FaultsOf({ shares, name }: { shares: FaultShares; name: string }) {
  const { recorded, nonconforming, faults, notTested } = shares
  if (recorded === 0) return null
  const rows = [
    { name: 'Crosstalk short of the limit', count: faults.crosstalk },
    { name: 'Return loss short of the limit', count: faults.returnLoss },
    { name: 'Wire map at fault', count: faults.wireMap },
    { name: 'Visual at fault', count: faults.visual },
    { name: 'Marginal', count: faults.marginal },
    { name: 'Missing, or could not be tested', count: notTested },
  ]
  return (
    <section>
      <h2>What is wrong with them</h2>
      <p>{leading(rows, recorded)}</p>
      <figure class="chart">
        <Shares
          id="faults"
          title={`Cords of ${name} by what is wrong with them`}
          bars={rows.map((row) => ({ ...row, said: `${whole(row.count)} of ${whole(recorded)}` }))}
        />
        <figcaption>
          Of all {whole(recorded)} cords recorded in decided lots, those of screenings too; {whole(nonconforming)} of
          them count as not conforming. A cord with two faults stands in two bars. Marginal: nearer the limit than the
          tester’s accuracy; whether it counts is the item’s rule.
        </figcaption>
      </figure>
      <DataTable
        compact
        columns={[{ head: 'What is wrong' }, { head: 'Cords' }, { head: 'Share of the recorded' }]}
        rows={rows.map((row) => ({ cells: [row.name, whole(row.count), percent(row.count / recorded)] }))}
      />
    </section>
  )
}

function leading(modes: { name: string; count: number }[], recorded: number): string {
  const [first] = modes.toSorted((one, other) => other.count - one.count)
  if (!first || first.count === 0) return `None of ${counted(recorded, 'cord')} recorded had anything wrong with it.`
  return `Most often, with ${counted(first.count, 'cord')}: ${first.name.charAt(0).toLowerCase()}${first.name.slice(1)}.`
}
