// How near the limit a supplier's cords come, lot after lot.
import type { LotMarginSummary, LotMargins } from '../../app/history/margins.ts'
import { MarginsOverTime } from '../charts/margins-over-time.tsx'
import { decibelsToHundredth, whole } from '../figures.ts'
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
      <h2>Margins over time</h2>
      <p>
        Margins fall before cords fail: a middle that sinks towards the limit is seen earlier than a count. Of the
        latest {whole(measured.length)} decided lots, all measured cords.
      </p>
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
        <figcaption>
          Ring: the middle cord of the lot. Stroke: the cord that a twentieth of the lot lie at or below. Diamond: the
          least margin. The more cords are measured, the lower the least one lies: compare the strokes.
        </figcaption>
      </figure>
      <AsTable measured={measured} />
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
        { head: 'Crosstalk: middle' },
        { head: 'a twentieth at or below' },
        { head: 'least' },
        { head: 'Return loss: middle' },
        { head: 'a twentieth at or below' },
        { head: 'least' },
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
