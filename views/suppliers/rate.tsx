// The share of a supplier's cords that do not conform: its own with an interval, and the same drawn towards all suppliers.
import type { SupplierHistory } from '../../app/history/supplier-page.ts'
import { type IntervalRow, Intervals } from '../charts/intervals.tsx'
import { counted, percent, percentAtLeast, percentAtMost, perHundred, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

export function RateFigure({ past }: { past: SupplierHistory }) {
  const { rate, supplier } = past
  if (!rate) return null
  const { own, rate: together } = rate
  const row: IntervalRow = {
    name: supplier.name,
    note: `${whole(rate.found)} of ${whole(rate.sampleSize)} cords`,
    own: own && { mean: own.fraction, ...own.interval },
    together,
  }
  return (
    <section>
      <h2>How many of its cords do not conform</h2>
      <p>
        {rate.insufficientData &&
          `${counted(rate.sampleSize, 'cord')} tested is too little to say much: even with none failing, more than 5 % could fail. `}
        Of {counted(rate.lots, 'decided lot')}, the samples alone are counted, as what a screening tests besides comes
        from lots that looked worse than usual.
      </p>
      <figure class="chart">
        <Intervals id="rate" title={`Share of the cords of ${supplier.name} that do not conform`} rows={[row]} />
        <figcaption>
          Filled square, solid line: its own cords, with the 95 % interval of Clopper and Pearson. Ring, dashed line:
          drawn towards what suppliers are like, with a 95 % interval. The scale gives small shares more room.
        </figcaption>
      </figure>
      <AsTable past={past} rate={rate} />
      <p class="caution">
        Both take the supplier's cords as one steady process; lots that differ make them less sure than they look, and
        the trend below shows whether they do. A sample that stopped at its rejection number counts with what was tested
        of it.
      </p>
    </section>
  )
}

function AsTable({ past, rate }: { past: SupplierHistory; rate: NonNullable<SupplierHistory['rate']> }) {
  const { own, rate: together } = rate
  return (
    <DataTable
      columns={[{ head: 'Estimate' }, { head: 'Share, 95 % interval' }, { head: 'What it rests on', text: true }]}
      rows={[
        ...(own
          ? [
              {
                cells: [
                  'Its own cords',
                  <ShareBetween share={own.fraction} {...own.interval} />,
                  `${whole(rate.found)} of ${whole(rate.sampleSize)}`,
                ],
              },
            ]
          : []),
        {
          cells: [
            'Drawn towards all suppliers',
            <ShareBetween share={together.mean} lower={together.lower} upper={together.upper} />,
            `its own cords weigh ${perHundred(together.ownShare)} of 100, ${priorWords(past)} the rest`,
          ],
        },
      ]}
    />
  )
}

/** A share with its interval below it. */
export function ShareBetween({ share, lower, upper }: { share: number; lower: number; upper: number }) {
  return (
    <span class="between">
      {percent(share)}
      <small>
        {percentAtLeast(lower)} to {percentAtMost(upper)}
      </small>
    </span>
  )
}

/** Where the prior is from, in the middle of a sentence. */
export function priorWords({
  priorFrom,
  suppliers,
}: {
  priorFrom: SupplierHistory['priorFrom']
  suppliers: number
}): string {
  return priorFrom === 'suppliers'
    ? `the ${whole(suppliers)} suppliers together`
    : 'a stated guess worth two cords (surveys of the open market, by interested parties)'
}
