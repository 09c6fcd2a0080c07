// A supplier's decided lots one after the other, with what is proven of each.
import type { SummarisedLot } from '../../app/history/summary.ts'
import { LotsOverTime } from '../charts/lots-over-time.tsx'
import { day, percent, percentAtLeast, percentAtMost, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'
import { DataTable } from '../table.tsx'
import { outcomeInRow } from '../words/lots.ts'

export function LotAfterLot({ lots, name }: { lots: SummarisedLot[]; name: string }) {
  return (
    <Topic title="Lot after lot">
      <figure class="chart">
        <LotsOverTime
          id="over-time"
          title={`Lots of ${name}: share of nonconforming cords`}
          points={lots.map((lot) => ({
            label: String(lot.lotId),
            fraction: lot.fraction,
            lower: lot.interval.lower,
            upper: lot.interval.upper,
            whole: lot.whole,
          }))}
        />
        <figcaption>
          A filled bar: every cord of the lot was recorded, so its share is known. A stroke: the share of its sample.
          The whiskers are exact two-sided 95 % intervals for the lot in hand. No mark: testing stopped early, so a
          percentage would mislead.
        </figcaption>
      </figure>
      <AsTable lots={lots} />
    </Topic>
  )
}

function AsTable({ lots }: { lots: SummarisedLot[] }) {
  return (
    <DataTable
      columns={[
        { head: 'Lot' },
        { head: 'Decided', text: true },
        { head: 'Item', text: true },
        { head: 'Cords' },
        { head: 'Recorded' },
        { head: 'Nonconforming' },
        { head: 'Share of the lot, 95 %', text: true },
        { head: 'Decision', text: true },
      ]}
      rows={lots.map((lot) => ({
        cells: [
          <a href={`/lots/${lot.lotId}`}>Lot {lot.lotId}</a>,
          day(lot.at),
          lot.item,
          whole(lot.size),
          whole(lot.recorded),
          whole(lot.found),
          lot.whole
            ? `${percent(lot.found / lot.size)}, every cord known`
            : `${percentAtLeast(lot.interval.lower)} to ${percentAtMost(lot.interval.upper)}`,
          outcomeInRow[lot.outcome],
        ],
      }))}
    />
  )
}
