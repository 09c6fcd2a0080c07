// The cords that carry a spool mark, counted by spool.
import { and, eq, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { spoolTallies } from '../../../db/schema/results.ts'
import type { LotResult } from '../../statistics/history/lots.ts'
import type { WhichLots } from '../counted-lots.ts'

/** So many spools with as many cords recorded and found nonconforming. */
export type AlikeSpools = LotResult & { spools: number }

/** Counts by spool are kept by the database, so that no cord is read; spools that are alike stand together. */
export async function markedSpools(db: Db, { supplierId, itemId }: WhichLots): Promise<AlikeSpools[]> {
  return await db
    .select({
      sampleSize: spoolTallies.recorded,
      found: spoolTallies.nonconforming,
      spools: sql<number>`count(*)::int`,
    })
    .from(spoolTallies)
    .innerJoin(lots, eq(lots.id, spoolTallies.lotId))
    .where(
      and(
        supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
        itemId === undefined ? undefined : eq(lots.itemId, itemId),
      ),
    )
    .groupBy(spoolTallies.recorded, spoolTallies.nonconforming)
    .orderBy(spoolTallies.recorded, spoolTallies.nonconforming)
}
