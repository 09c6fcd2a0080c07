// What is wrong with a supplier's cords: by parameter and by failure mode.
import type { FaultShares } from '../../app/history/supplier-page-sums.ts'
import { Shares } from '../charts/shares.tsx'
import { counted, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'

export function FaultsOf({ shares, name }: { shares: FaultShares; name: string }) {
  const { recorded, nonconforming } = shares
  if (recorded === 0) return null
  const rows = rowsOf(shares)
  return (
    <Topic title="What is wrong with them">
      <p>{leading(shares)}</p>
      <figure class="chart">
        <Shares
          id="faults"
          title={`Cords of ${name} by what is wrong with them`}
          bars={rows.map((row) => ({ ...row, said: `${whole(row.count)} of ${whole(recorded)}` }))}
        />
        <figcaption>
          Of all {whole(recorded)} cords recorded in decided lots, those of screenings too; {whole(nonconforming)} of
          them count as nonconforming. A cord with two faults stands in two bars. Marginal: nearer the limit than the
          tester’s accuracy; whether it counts is the item’s rule.
        </figcaption>
      </figure>
    </Topic>
  )
}

function rowsOf({ faults, notTested }: FaultShares) {
  return [
    { name: 'Crosstalk short of the limit', short: 'Crosstalk', count: faults.crosstalk },
    { name: 'Return loss short of the limit', short: 'Return loss', count: faults.returnLoss },
    { name: 'Wire map at fault', short: 'Wire map', count: faults.wireMap },
    { name: 'Visual at fault', short: 'Visual', count: faults.visual },
    { name: 'Marginal', short: 'Marginal', count: faults.marginal },
    { name: 'Missing, or could not be tested', short: 'Not tested', count: notTested },
  ]
}

/** What is wrong with most cords; undefined where nothing is. */
export function mostOften(shares: FaultShares): ReturnType<typeof rowsOf>[number] | undefined {
  const [first] = rowsOf(shares).toSorted((one, other) => other.count - one.count)
  return first && first.count > 0 ? first : undefined
}

function leading(shares: FaultShares): string {
  const first = mostOften(shares)
  if (!first) return `None of ${counted(shares.recorded, 'cord')} recorded had anything wrong with it.`
  return `Most often, with ${counted(first.count, 'cord')}: ${first.name.charAt(0).toLowerCase()}${first.name.slice(1)}.`
}
