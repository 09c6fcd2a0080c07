// A supplier's page: its rate, its series with trend and inspection state, what is wrong with its cords, its margins and its lots.

import type { SupplierHistory } from '../../app/history/supplier-page.ts'
import type { Role } from '../../app/terms/person.ts'
import { counted, whole } from '../figures.ts'
import { type Frame, Page } from '../layout.tsx'
import { lotsInWords } from './between-lots.tsx'
import { FaultsOf } from './faults.tsx'
import { LotAfterLot } from './lots.tsx'
import { MarginsOf } from './margins.tsx'
import { type NoteForm, SeriesOf } from './series.tsx'

type Props = Frame & NoteForm & { roles: Role[]; past: SupplierHistory }

export function SupplierPage({ viewer, firm, done, roles, past, ...form }: Props) {
  const { supplier, lots, open, series, faults, margins } = past
  return (
    <Page title={supplier.name} current="suppliers" viewer={viewer} firm={firm} done={done}>
      <h1>{supplier.name}</h1>
      <p class="answer">{firstLine(past)}</p>
      <p>
        {lots.length === 0 ? 'No lot is decided yet' : `${counted(lots.length, 'lot')} decided`}, {whole(open)} under
        way. <a href={`/percentage?supplier=${supplier.id}`}>What would a percentage have let through?</a>{' '}
        <a href="/suppliers/comparison">Beside the other suppliers</a>
      </p>
      {series.map((each) => (
        <SeriesOf supplierId={supplier.id} series={each} manager={roles.includes('manager')} form={form} />
      ))}
      {lots.length > 0 && <FaultsOf shares={faults} name={supplier.name} />}
      <MarginsOf margins={margins} name={supplier.name} />
      {lots.length > 0 && <LotAfterLot lots={lots} name={supplier.name} />}
      <p class="caution">
        Counted is the sample of each lot, as far as it was tested; what a screening tested besides stands in “Lot after
        lot” and among the faults alone. An interval holds if the tested cords were drawn at random from the whole lot
        (a top carton says nothing of the rest), and as far as the tester and the limit set were right.
      </p>
    </Page>
  )
}

/** Lot by lot and no share of all together: where lots differ it would hold for none of them. */
function firstLine({ supplier, series, lots }: SupplierHistory): string {
  if (lots.length === 0) return `Nothing is known of ${supplier.name} yet: no lot of it is decided.`
  return series
    .filter(({ finished }) => finished.length > 0)
    .map(({ item, finished, difference }) => {
      const shown = lotsInWords(finished.toReversed().slice(0, 4))
      return `${item.name}: ${shown}${difference.kind === 'differ' ? '. These lots differ' : ''}.`
    })
    .join(' ')
}
