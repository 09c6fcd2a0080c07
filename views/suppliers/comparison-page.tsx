// Suppliers side by side: each rate with its interval, the chance to be the best, and how surely one is better than another.
import type { SupplierComparison } from '../../app/history/comparison.ts'
import { Intervals } from '../charts/intervals.tsx'
import { believed, counted, whole } from '../figures.ts'
import { Select } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { priorWords, ShareBetween } from './rate.tsx'

type Props = Frame & { comparison: SupplierComparison }

export function ComparisonPage({ viewer, firm, comparison }: Props) {
  const { suppliers, pairs, items, itemId } = comparison
  return (
    <Page title="Suppliers side by side" current="suppliers" viewer={viewer} firm={firm}>
      <h1>Suppliers side by side</h1>
      <p class="answer">{firstLine(comparison)}</p>
      {items.length > 1 && (
        <form class="screen-only" method="get" action="/suppliers/comparison">
          <Select
            name="item"
            label="Lots of which item"
            value={itemId === undefined ? 'all' : String(itemId)}
            options={[
              { value: 'all', label: 'all items together' },
              ...items.map(({ id, name }) => ({ value: String(id), label: name })),
            ]}
          />
          <button type="submit">Compare</button>
        </form>
      )}
      {suppliers.length > 0 && <SideBySide comparison={comparison} />}
      {pairs.length > 0 && <Pairs comparison={comparison} />}
      {suppliers.length > 0 && (
        <p class="caution">
          Counted are the samples of decided lots. Each supplier's cords are taken as one steady process: where lots
          differ, the order is less sure than these numbers say. Cords of different items are no fair comparison; choose
          one. This holds if the tested cords were drawn at random from their lots, and as far as the tester and the
          limit set were right.
        </p>
      )}
    </Page>
  )
}

function firstLine({ suppliers, items, itemId, priorFrom }: SupplierComparison): string {
  const of = items.find(({ id }) => id === itemId)?.name ?? 'all items together'
  if (suppliers.length === 0) return 'There is nothing to compare: no lot is decided yet.'
  if (suppliers.length === 1) return 'There is one supplier with a decided lot: nothing to compare it with.'
  const [best] = suppliers.toSorted((one, other) => other.ranked.chanceBest - one.ranked.chanceBest)
  const little = suppliers.filter(({ insufficientData }) => insufficientData).length
  const most = best
    ? `${best.name} has the lowest share with a chance of ${believed(best.ranked.chanceBest)}: of ${of}, if each is one steady process, ${priorFrom === 'suppliers' ? 'by a prior fitted to these suppliers' : 'by a stated prior'}`
    : ''
  if (little === 0) return `Of ${whole(suppliers.length)} suppliers, ${most}.`
  return `Of ${whole(suppliers.length)} suppliers, ${most}; of ${little === 1 ? 'one' : whole(little)} too little is known.`
}

function SideBySide({ comparison }: { comparison: SupplierComparison }) {
  const { suppliers } = comparison
  return (
    <>
      <IntervalsFigure comparison={comparison} />
      <DataTable
        columns={[
          { head: 'Supplier' },
          { head: 'Do not conform, of tested' },
          { head: 'Own share, 95 %', text: true },
          { head: 'Drawn together, 95 %', text: true },
          { head: 'Chance to be the best', text: true },
          { head: 'Place, 90 % interval', text: true },
        ]}
        rows={suppliers.map(({ id, name, found, sampleSize, own, rate, ranked, insufficientData }) => ({
          cells: [
            <>
              <a href={`/suppliers/${id}`}>{name}</a>
              {insufficientData && <small>too little data: {counted(sampleSize, 'cord')}</small>}
            </>,
            `${whole(found)} of ${whole(sampleSize)}`,
            own ? <ShareBetween share={own.fraction} {...own.interval} /> : 'nothing tested',
            <ShareBetween share={rate.mean} lower={rate.lower} upper={rate.upper} />,
            believed(ranked.chanceBest),
            ranked.bestRank === ranked.worstRank
              ? `${whole(ranked.bestRank)} of ${whole(suppliers.length)}`
              : `${whole(ranked.bestRank)} to ${whole(ranked.worstRank)} of ${whole(suppliers.length)}`,
          ],
        }))}
      />
      <p>
        Too little data stands where so few cords were tested that even a clean record would leave more than 5 %
        possible (95 % confidence, exact).
      </p>
    </>
  )
}

function IntervalsFigure({ comparison: { suppliers, priorFrom } }: { comparison: SupplierComparison }) {
  return (
    <figure class="chart">
      <Intervals
        id="comparison"
        title="Share of the cords that do not conform, by supplier"
        rows={suppliers.map(({ name, found, sampleSize, own, rate }) => ({
          name,
          note: `${whole(found)} of ${whole(sampleSize)}`,
          own: own && { mean: own.fraction, ...own.interval },
          together: rate,
        }))}
      />
      <figcaption>
        By name, as an order by share would look surer than it is. Filled square, solid line: own cords with the 95 %
        interval of Clopper and Pearson. Ring, dashed line: drawn towards{' '}
        {priorWords({ priorFrom, suppliers: suppliers.length })}, with a 95 % interval; the fewer cords were tested, the
        further it is drawn. The scale gives small shares more room.
      </figcaption>
    </figure>
  )
}

function Pairs({ comparison: { pairs } }: { comparison: SupplierComparison }) {
  return (
    <section>
      <h2>Two at a time</h2>
      <p>
        How sure it is that the first has the lower share of the two, given what was tested: 50 of 100 would be a coin
        toss. Only suppliers with enough data stand here.
      </p>
      <DataTable
        compact
        columns={[{ head: 'Lower share' }, { head: 'Higher share', text: true }, { head: 'How sure', text: true }]}
        rows={pairs.map(({ lower, other, chance, against }) => ({
          cells: [lower, other, believed(chance, against)],
        }))}
      />
    </section>
  )
}
