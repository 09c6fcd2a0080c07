// Suppliers of one item side by side: their finished lots are read here, and worked out where nobody waits for it.
import { asc, eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items, suppliers } from '../../db/schema/register.ts'
import { Refusal } from '../kit/refusal.ts'
import type { Run } from '../kit/task.ts'
import { rankingTask, type SupplierRanking, type SuppliersLots } from './comparison-sums.ts'
import { countedLots } from './counted-lots.ts'
import { finishedLots } from './finished.ts'
import { readUntilMoved } from './moved.ts'
import { entriesInOrder } from './series/series.ts'

type Named = { id: number; name: string }

export type SupplierComparison = SupplierRanking & {
  /** undefined where no lot was announced yet */
  item: Named | undefined
  /** items of which any lot was announced, to choose from */
  items: Named[]
}

/**
 * Compares all suppliers with a finished lot of the item, or of the first by name where none is asked for: cords of different
 * items are judged by different limits. Throws Refusal where no lot of the item was announced.
 */
export async function compareSuppliers(db: Db, run: Run, itemId?: number): Promise<SupplierComparison> {
  const known = await db
    .selectDistinct({ id: items.id, name: items.name })
    .from(items)
    .innerJoin(lots, eq(lots.itemId, items.id))
    .orderBy(asc(items.name))
  const item = itemId === undefined ? known[0] : known.find(({ id }) => id === itemId)
  if (!item && itemId !== undefined) throw new Refusal('missing', 'item/unknown', {})
  const ranking = item ? await rankingOf(db, { itemId: item.id }, run) : { suppliers: [], pairs: [] }
  return { item, items: known, ...ranking }
}

/** Worked out once until an entry or a decision is made: the lots of an item may be thousands. */
const rankingOf = readUntilMoved(
  async (db, { itemId }: { itemId: number }, run): Promise<SupplierRanking> =>
    run(rankingTask, await lotsBySupplier(db, itemId)),
)

async function lotsBySupplier(db: Db, itemId: number): Promise<SuppliersLots[]> {
  const counted = await countedLots(db, { itemId })
  const named = await db.select({ id: suppliers.id, name: suppliers.name }).from(suppliers).orderBy(asc(suppliers.name))
  return named.flatMap(({ id, name }) => {
    const own = finishedLots(entriesInOrder(counted.filter(({ supplierId }) => supplierId === id)))
    const finished = own.map(({ lotId, tested, found }) => ({ lotId, tested, found }))
    return finished.length > 0 ? [{ id, name, finished }] : []
  })
}
