// The latest lots tested whole, each with what the percentage would have done to it.
import type { ReplayedLot } from '../../app/history/replay/whole-lots.ts'
import { counted, expected, frequency, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

export function LotsTable({ lots, addressOf }: { lots: ReplayedLot[]; addressOf: (lotId: number) => string }) {
  return (
    <details>
      <summary>The latest {counted(lots.length, 'lot')} one by one</summary>
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
          { head: 'Its picture', text: true },
        ]}
        rows={lots.map((lot) => ({
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
            <a href={addressOf(lot.lotId)}>Draw a sample of lot {lot.lotId}</a>,
          ],
        }))}
      />
      <p>Marked: those that held too many for their item.</p>
    </details>
  )
}
