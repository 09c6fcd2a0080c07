// The finished lots of a lot's item from its supplier: all that the advice believes rests on them.
import type { Db } from '../../db/client.ts'
import { countedLots } from '../history/counted-lots.ts'
import { type FinishedLot, finishedLots } from '../history/finished.ts'
import { entriesInOrder } from '../history/series/series.ts'

/** In the order of their decisions; from tallies alone, so that no cord is read. The lot that the advice is for is left out. */
export async function finishedLotsFor(
  db: Db,
  { id, supplier, item }: { id: number; supplier: { id: number }; item: { id: number } },
): Promise<FinishedLot[]> {
  const counted = await countedLots(db, { supplierId: supplier.id, itemId: item.id })
  return finishedLots(entriesInOrder(counted.filter(({ lotId }) => lotId !== id)))
}
