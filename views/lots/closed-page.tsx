// Lots that wait for nothing any more, with filters, in an order, a page at a time; the address holds it all.
import type { ClosedLots, ClosedOrder, ClosedQuery } from '../../app/desk/closed-lots.ts'
import type { LotState } from '../../app/terms/lot.ts'
import { day, whole } from '../figures.ts'
import { Field, Select } from '../form.tsx'
import { Columns } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { stateWords } from '../words/lots.ts'

type Named = { id: number; name: string }
type Props = Frame & { asked: ClosedQuery; closed: ClosedLots; suppliers: Named[]; items: Named[] }

export function ClosedLotsPage({ viewer, firm, done, asked, closed, suppliers, items }: Props) {
  return (
    <Page title="Closed lots" current="lots" viewer={viewer} firm={firm} done={done}>
      <Columns
        side="left"
        summary="Filter and sort"
        panel={<Filters asked={asked} suppliers={suppliers} items={items} />}
      >
        <h1>
          <a href="/lots">Lots</a> · Closed lots
        </h1>
        {closed.lots.length === 0 ? <p>No closed lot is found so.</p> : <ClosedTable lots={closed.lots} />}
        <Pages asked={asked} more={closed.more} />
      </Columns>
    </Page>
  )
}

const orderWords: Record<ClosedOrder, string> = {
  latest: 'latest first',
  oldest: 'oldest first',
  supplier: 'by supplier',
  item: 'by item',
  largest: 'largest first',
}

const outcomes: LotState[] = ['accepted', 'conceded', 'sorted', 'returned', 'withdrawn']

function Filters({ asked, suppliers, items }: Pick<Props, 'asked' | 'suppliers' | 'items'>) {
  const named = (all: Named[]) => all.map(({ id, name }) => ({ value: String(id), label: name }))
  const text = (value: number | undefined) => (value === undefined ? undefined : String(value))
  return (
    <form method="get" action="/lots/closed">
      <h2>Which lots</h2>
      <Field
        name="find"
        label="Find"
        hint="lot, supplier, item, purchase order, mark"
        value={asked.find}
        maxlength={100}
      />
      <Select
        name="supplier"
        label="Supplier"
        first="All suppliers"
        value={text(asked.supplier)}
        options={named(suppliers)}
      />
      <Select name="item" label="Item" first="All items" value={text(asked.item)} options={named(items)} />
      <Select
        name="state"
        label="Outcome"
        first="Every outcome"
        value={asked.state}
        options={outcomes.map((state) => ({ value: state, label: stateWords[state] }))}
      />
      <ClosedBetween asked={asked} />
      <Select
        name="order"
        label="Order"
        first={orderWords.latest}
        value={asked.order}
        options={Object.entries(orderWords).map(([value, label]) => ({ value, label }))}
      />
      <button type="submit">Show</button>
    </form>
  )
}

function ClosedBetween({ asked: { from, until } }: Pick<Props, 'asked'>) {
  return (
    <>
      <Field name="from" label="Closed from" type="date" size="short" value={from} />
      <Field name="until" label="Closed until" type="date" size="short" value={until} />
    </>
  )
}

function ClosedTable({ lots }: Pick<ClosedLots, 'lots'>) {
  return (
    <DataTable
      columns={[
        { head: 'Lot' },
        { head: 'From', text: true },
        { head: 'Cords' },
        { head: 'Outcome', text: true },
        { head: 'Closed on', text: true },
      ]}
      rows={lots.map((lot) => ({
        cells: [
          <a href={`/lots/${lot.id}`}>Lot {lot.id}</a>,
          <>
            {lot.supplier}
            <small>
              {lot.item} · {lot.purchaseOrder}
            </small>
          </>,
          whole(lot.size),
          stateWords[lot.state],
          day(lot.since),
        ],
      }))}
    />
  )
}

function Pages({ asked, more }: { asked: ClosedQuery; more: boolean }) {
  const at = (page: number) => {
    const said = new URLSearchParams()
    for (const [name, value] of Object.entries({ ...asked, page }))
      if (value !== undefined && value !== '') said.set(name, String(value))
    return `/lots/closed?${said}`
  }
  if (asked.page === 1 && !more) return null
  return (
    <nav aria-label="Pages" class="actions">
      {asked.page > 1 && <a href={at(asked.page - 1)}>Page {whole(asked.page - 1)}</a>}
      <span>Page {whole(asked.page)}</span>
      {more && <a href={at(asked.page + 1)}>Page {whole(asked.page + 1)}</a>}
    </nav>
  )
}
