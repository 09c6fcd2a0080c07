// A supplier's page: its rate, its series with trend and inspection state, what is wrong with its cords, its margins and its lots.

import type { Series } from '../../app/history/series/series.ts'
import type { SupplierHistory } from '../../app/history/supplier-page.ts'
import type { Role } from '../../app/terms/person.ts'
import { whole } from '../figures.ts'
import { Columns } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { lotsInWords } from './between-lots.tsx'
import { FaultsOf } from './faults.tsx'
import { SupplierFigures } from './figures.tsx'
import { LotAfterLot } from './lots.tsx'
import { MarginsOf } from './margins.tsx'
import { NextLots } from './next-lots.tsx'
import { type NoteForm, SeriesOf } from './series.tsx'

type Props = Frame & NoteForm & { roles: Role[]; past: SupplierHistory }

export function SupplierPage({ viewer, firm, done, roles, past, ...form }: Props) {
  const { supplier, lots, faults, margins } = past
  const series = latestFirst(past.series)
  return (
    <Page title={supplier.name} current="suppliers" viewer={viewer} firm={firm} done={done}>
      <Columns side="right" panel={<NextLots past={past} series={series} officer={roles.includes('officer')} />}>
        <h1>{supplier.name}</h1>
        <p class="answer">{firstLine(past, series[0])}</p>
        {series[0] && lots.length > 0 && <SupplierFigures series={series[0]} faults={faults} lots={lots} />}
        {series.map((each) => (
          <SeriesOf supplierId={supplier.id} series={each} manager={roles.includes('manager')} form={form} />
        ))}
        <MarginsOf margins={margins} name={supplier.name} />
        {lots.length > 0 && (
          <p class="caution">
            Counted is the sample of each lot, as far as it was tested. The numbers hold if the cords were drawn at
            random from the whole lot and the tester was set to the right cord limit.
          </p>
        )}
        {lots.length > 0 && <FaultsOf shares={faults} name={supplier.name} />}
        {lots.length > 0 && <LotAfterLot lots={lots} name={supplier.name} />}
      </Columns>
    </Page>
  )
}

/** The series with the latest finished lot first. */
function latestFirst(series: SupplierHistory['series']): SupplierHistory['series'] {
  const last = ({ finished }: Series) => finished.at(-1)?.lotId ?? 0
  return series.toSorted((one, other) => last(other) - last(one))
}

/** From the sixth finished lot on a last lot beyond what the first ones let expect is said so; else lot by lot, as lots may differ. */
function firstLine({ supplier, lots }: SupplierHistory, series: Series | undefined): string {
  if (lots.length === 0 || !series || series.finished.length === 0)
    return `Nothing is known of ${supplier.name} yet: no lot of it is decided.`
  const { finished, trend } = series
  const last = trend?.points.at(-1)
  if (finished.length > fewestForRange && last?.signal === 'above')
    return `Last lot far above the earlier ones: ${whole(last.found)} of ${whole(last.counted)}, at most ${whole(last.limits.upper)} expected.`
  return `${lotsInWords(finished.toReversed().slice(0, 4))}.`
}

/** With so many finished lots before it a lot is held against a predicted range. */
const fewestForRange = 5
