// What the samples of every supplier held, as its decisions keep it.
import { eq, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { suppliers } from '../../db/schema/register.ts'
import { seriesCounts } from '../../db/schema/series-counts.ts'
import type { SampledSupplier } from './rates.ts'

/** What the decisions add up to is kept by series, so neither a cord nor a lot is read. */
export async function sampledCords(db: Db): Promise<SampledSupplier[]> {
  return await db
    .select({
      id: suppliers.id,
      name: suppliers.name,
      lots: sql<number>`sum(${seriesCounts.lots})::int`,
      sampleSize: sql<number>`sum(${seriesCounts.recorded})::int`,
      found: sql<number>`sum(${seriesCounts.found})::int`,
    })
    .from(seriesCounts)
    .innerJoin(suppliers, eq(suppliers.id, seriesCounts.supplierId))
    .groupBy(suppliers.id)
    .orderBy(sql`lower(${suppliers.name})`)
}
