// Beside a supplier's past: what its next lot of each item will need, and the ways on.
import type { Series } from '../../app/history/series/series.ts'
import type { SupplierHistory } from '../../app/history/supplier-page.ts'
import { counted, whole } from '../figures.ts'

type Props = { past: SupplierHistory; series: Series[]; officer: boolean }

export function NextLots({ past: { supplier, open }, series, officer }: Props) {
  return (
    <>
      {series.map((each) => (
        <NextLot series={each} />
      ))}
      {series.length === 0 && <h2>The next lot</h2>}
      {officer && (
        <a class="button" href="/lots/new">
          Announce a lot
        </a>
      )}
      <ul class="plain-list">
        <li>
          <a href={`/lots?find=${encodeURIComponent(supplier.name)}`}>{counted(open, 'lot')} under way</a>
        </li>
        <li>
          <a href={`/percentage?supplier=${supplier.id}`}>Would a percentage have caught its bad lots?</a>
        </li>
        <li>
          <a href="/suppliers/comparison">Compare with other suppliers</a>
        </li>
      </ul>
    </>
  )
}

function NextLot({ series: { item, next } }: { series: Series }) {
  const { demanded, size, lotId } = next
  return (
    <>
      <h2>
        {lotId === undefined ? `The next lot of ${whole(size)}` : <a href={`/lots/${lotId}`}>Lot {lotId}</a>},{' '}
        {item.name}
      </h2>
      <p>
        <b>
          Test {whole(demanded.sampleSize)} of {whole(size)}; the plan allows none.
        </b>{' '}
        <small>
          Catches {demanded.catchOf100} of 100 lots with {whole(demanded.tooMany)} nonconforming, as the item demands.
        </small>
      </p>
    </>
  )
}
