// Suppliers side by side: what their samples held is read here, and worked out where nobody waits for it.
import { asc, eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { rememberedRun } from '../kit/remember.ts'
import type { Run } from '../kit/task.ts'
import { rankingTask, type SupplierRanking } from './comparison-sums.ts'
import type { SampledSupplier } from './rates.ts'
import { sampledCords } from './sampled-cords.ts'

export type SupplierComparison = SupplierRanking & {
  itemId: number | undefined
  /** items of which any lot was announced, to choose from */
  items: { id: number; name: string }[]
}

/** What samples held decides the ranking alone: it is worked out again after a decision. */
const ranked = rememberedRun<SampledSupplier[], SupplierRanking>()

/** Compares all suppliers with a decided lot, of one item or of everything. */
export async function compareSuppliers(db: Db, run: Run, itemId?: number): Promise<SupplierComparison> {
  const sampled = await sampledCords(db, itemId)
  const known = await db
    .selectDistinct({ id: items.id, name: items.name })
    .from(items)
    .innerJoin(lots, eq(lots.itemId, items.id))
    .orderBy(asc(items.name))
  return { itemId, items: known, ...(await ranked(run, rankingTask, sampled)) }
}
