// How near the limit a supplier's cords come, lot after lot.
import type { LotMarginSummary, LotMargins } from '../../app/history/margins.ts'
import { MarginsOverTime } from '../charts/margins-over-time.tsx'
import { decibelsToHundredth, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'
import { DataTable } from '../table.tsx'

type Measured = LotMargins & { crosstalk: LotMarginSummary; returnLoss: LotMarginSummary }

export function MarginsOf({ margins, name }: { margins: LotMargins[]; name: string }) {
  const measured = margins.flatMap(({ crosstalk, returnLoss, ...lot }): Measured[] =>
    crosstalk && returnLoss ? [{ ...lot, crosstalk, returnLoss }] : [],
  )
  if (measured.length === 0) return null
  const chart = (of: (lot: Measured) => LotMarginSummary) =>
    measured.map((lot) => ({ label: String(lot.lotId), ...of(lot) }))
  return (
    <section>
      <h2>Margins by lot</h2>
      <div class="side">
        <figure class="chart">
          <h3>Crosstalk</h3>
          <MarginsOverTime
            id="crosstalk"
            title={`${name}: crosstalk margin, lot after lot`}
            lots={chart((lot) => lot.crosstalk)}
          />
        </figure>
        <figure class="chart">
          <h3>Return loss</h3>
          <MarginsOverTime
            id="return-loss"
            title={`${name}: return loss margin, lot after lot`}
            lots={chart((lot) => lot.returnLoss)}
          />
        </figure>
      </div>
      <small>Ring: median. Bar: 5 % of the cords lie at or below. Diamond: lowest.</small>
      <Topic title="The margins as a table">
        <p>
          A falling median warns earlier than a count. The more cords are measured, the lower the lowest one lies:
          compare the bars. Of the latest {whole(measured.length)} decided lots, all measured cords.
        </p>
        <AsTable measured={measured} />
      </Topic>
    </section>
  )
}

function AsTable({ measured }: { measured: Measured[] }) {
  return (
    <DataTable
      compact
      columns={[
        { head: 'Lot' },
        { head: 'Cords measured' },
        { head: 'Crosstalk: median' },
        { head: '5th percentile' },
        { head: 'lowest' },
        { head: 'Return loss: median' },
        { head: '5th percentile' },
        { head: 'lowest' },
      ]}
      rows={measured.map(({ lotId, cords, crosstalk, returnLoss }) => ({
        cells: [<a href={`/lots/${lotId}`}>Lot {lotId}</a>, whole(cords), ...digits(crosstalk), ...digits(returnLoss)],
      }))}
    />
  )
}

function digits({ median, percentile5, minimum }: LotMarginSummary): string[] {
  return [median, percentile5, minimum].map(decibelsToHundredth)
}
