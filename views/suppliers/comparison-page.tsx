// Suppliers of one item side by side: their lots, what the next one may hold, and how surely one is better than another.

import type { SupplierComparison } from '../../app/history/comparison.ts'
import type { ComparedSupplier } from '../../app/history/comparison-sums.ts'
import { Intervals } from '../charts/intervals.tsx'
import { believed, counted, whole } from '../figures.ts'
import { Select } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { lotsInWords } from './between-lots.tsx'
import { ShareBetween } from './rate.tsx'

type Props = Frame & { comparison: SupplierComparison }
/** One with five finished lots and more. */
type Known = ComparedSupplier & { next: NonNullable<ComparedSupplier['next']> }

export function ComparisonPage({ viewer, firm, done, comparison }: Props) {
  const { suppliers, pairs, items, item } = comparison
  const known = suppliers.filter(isKnown)
  return (
    <Page title="Suppliers side by side" current="suppliers" viewer={viewer} firm={firm} done={done}>
      <h1>Suppliers side by side</h1>
      <p class="answer">{firstLine(comparison, known)}</p>
      {item && items.length > 1 && (
        <form class="screen-only" method="get" action="/suppliers/comparison">
          <Select
            name="item"
            label="Lots of which item"
            value={String(item.id)}
            options={items.map(({ id, name }) => ({ value: String(id), label: name }))}
          />
          <button type="submit">Compare</button>
        </form>
      )}
      {known.length > 0 && <IntervalsFigure known={known} />}
      {suppliers.length > 0 && <SideBySide suppliers={suppliers} among={known.length} />}
      {pairs.length > 0 && <Pairs comparison={comparison} />}
      {suppliers.length > 0 && (
        <p class="caution">
          Counted are the samples of finished lots: those whose plan has ended. Lots of one supplier may differ, so the
          figures are of its next lot, from its own lots alone (beta-binomial, by maximum likelihood, worth at most one
          lot). This holds if the tested cords were drawn at random from their lots, and as far as the tester and the
          limit set were right.
        </p>
      )}
    </Page>
  )
}

function isKnown(supplier: ComparedSupplier): supplier is Known {
  return supplier.next !== undefined
}

function firstLine({ suppliers, item }: SupplierComparison, known: Known[]): string {
  if (!item || suppliers.length === 0) return 'There is nothing to compare: no lot is finished yet.'
  const few = suppliers.length - known.length
  const [best] = known.toSorted((one, other) => other.next.ranked.chanceBest - one.next.ranked.chanceBest)
  if (!best || known.length === 1)
    return `${item.name}: ${counted(suppliers.length, 'supplier')}, ${known.length === 0 ? 'none' : 'one'} with the five finished lots that a comparison needs.`
  const most = `Of ${whole(known.length)} suppliers of ${item.name}, the next lot of ${best.name} has the lowest share with a chance of ${believed(best.next.ranked.chanceBest)}.`
  if (few === 0) return most
  return `${most} Of ${few === 1 ? 'one more' : `${whole(few)} more`} too few lots are finished.`
}

function SideBySide({ suppliers, among }: { suppliers: ComparedSupplier[]; among: number }) {
  return (
    <DataTable
      columns={[
        { head: 'Supplier' },
        { head: 'Finished lots' },
        { head: 'Do not conform, of tested', text: true },
        { head: 'Share of the next lot, 95 %', text: true },
        { head: 'Chance of the lowest', text: true },
        { head: 'Place, 90 % interval', text: true },
      ]}
      rows={suppliers.map(({ next, ...supplier }) => ({
        cells: [
          <a href={`/suppliers/${supplier.id}`}>{supplier.name}</a>,
          whole(supplier.lots),
          latestIn({ next, ...supplier }),
          next ? <ShareBetween share={next.mean} lower={next.lower} upper={next.upper} /> : 'from five lots on',
          next ? believed(next.ranked.chanceBest) : '–',
          next ? placeIn(next.ranked, among) : '–',
        ],
      }))}
    />
  )
}

function latestIn({ lots, latest }: ComparedSupplier): string {
  const said = lotsInWords(latest)
  const before = lots - latest.length
  return before > 0 ? `${said} and ${counted(before, 'lot')} before these` : said
}

function placeIn({ bestRank, worstRank }: Known['next']['ranked'], among: number): string {
  const places = bestRank === worstRank ? whole(bestRank) : `${whole(bestRank)} to ${whole(worstRank)}`
  return `${places} of ${whole(among)}`
}

function IntervalsFigure({ known }: { known: Known[] }) {
  return (
    <figure class="chart">
      <Intervals
        id="comparison"
        title="Share of the next lot that does not conform, by supplier"
        rows={known.map(({ name, lots, next }) => ({
          name,
          note: counted(lots, 'finished lot'),
          share: next,
        }))}
      />
      <figcaption>
        By name, as an order by share would look surer than it is. Square: the expected share of the next lot; line: its
        95 % interval, for lots that may differ. The scale gives small shares more room.
      </figcaption>
    </figure>
  )
}

function Pairs({ comparison: { pairs } }: { comparison: SupplierComparison }) {
  return (
    <section>
      <h2>Two at a time</h2>
      <p>
        How often the next lot of the first has the lower share of the two: 50 of 100 would be a coin toss. Only
        suppliers with five finished lots stand here.
      </p>
      <DataTable
        compact
        columns={[{ head: 'Lower share' }, { head: 'Higher share', text: true }, { head: 'How often', text: true }]}
        rows={pairs.map(({ lower, other, chance, against }) => ({
          cells: [lower, other, believed(chance, against)],
        }))}
      />
    </section>
  )
}
