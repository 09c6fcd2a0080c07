// The cords that carry a spool mark, counted by spool.
import { and, eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { spoolTallies } from '../../../db/schema/results.ts'
import type { LotResult } from '../../statistics/history/lots.ts'
import type { WhichLots } from '../counted-lots.ts'

/** Counts by spool are kept by the database, so that no cord is read. */
export async function markedSpools(db: Db, { supplierId, itemId }: WhichLots): Promise<LotResult[]> {
  return await db
    .select({ sampleSize: spoolTallies.recorded, found: spoolTallies.nonconforming })
    .from(spoolTallies)
    .innerJoin(lots, eq(lots.id, spoolTallies.lotId))
    .where(
      and(
        supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
        itemId === undefined ? undefined : eq(lots.itemId, itemId),
      ),
    )
}
