// One group of fully tested lots, each with what the percentage would have done to it.
import type { ReplaySum } from '../../app/history/replay/replayed.ts'
import { expected, frequency, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

type Props = { heading: string; note: string; sum: ReplaySum }

export function ReplayTable({ heading, note, sum }: Props) {
  if (sum.lots.length === 0) return null
  return (
    <section>
      <h2>{heading}</h2>
      <p>{note}</p>
      <DataTable
        columns={[
          { head: 'Lot' },
          { head: 'Item', text: true },
          { head: 'Cords' },
          { head: 'Do not conform' },
          { head: 'Too many is' },
          { head: 'The percentage tests' },
          { head: 'It would have accepted', text: true },
          { head: 'Shipped on average' },
        ]}
        rows={sum.lots.map((lot) => ({
          picked: lot.heldTooMany,
          cells: [
            <a href={`/lots/${lot.lotId}`}>Lot {lot.lotId}</a>,
            lot.item,
            whole(lot.size),
            whole(lot.nonconforming),
            whole(lot.tooMany),
            whole(lot.sampleSize),
            `${frequency(lot.acceptance)} samples`,
            expected(lot.shipped),
          ],
        }))}
      />
      <p>
        {sum.heldTooMany === 0
          ? 'None of these held too many for its item.'
          : `Marked: the ${whole(sum.heldTooMany)} that held too many for ${sum.heldTooMany === 1 ? 'its' : 'their'} item. Of them the percentage would have accepted ${expected(sum.acceptedOfThose)} on average and shipped ${expected(sum.shippedOfThose)} cords that do not conform; testing every cord ships none.`}
      </p>
    </section>
  )
}
