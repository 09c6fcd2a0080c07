// What the samples of every supplier held, as its decisions keep it.
import { and, eq, ne, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { decisions, lots } from '../../db/schema/lots.ts'
import { suppliers } from '../../db/schema/register.ts'
import { type Rates, ratesFrom, type SampledSupplier } from './rates.ts'

/** Rates of all suppliers with a decided lot, of one item or of everything. */
export async function ratesOf(db: Db, itemId?: number): Promise<Rates> {
  return ratesFrom(await sampledCords(db, itemId))
}

/** The decision after the sample keeps what was recorded and found at that moment, so no cord is read. */
export async function sampledCords(db: Db, itemId?: number): Promise<SampledSupplier[]> {
  return await db
    .select({
      id: suppliers.id,
      name: suppliers.name,
      lots: sql<number>`count(*)::int`,
      sampleSize: sql<number>`sum(${decisions.recorded})::int`,
      found: sql<number>`sum(${decisions.found})::int`,
    })
    .from(decisions)
    .innerJoin(lots, eq(lots.id, decisions.lotId))
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .where(
      and(
        eq(decisions.after, 'sample'),
        ne(lots.state, 'withdrawn'),
        itemId === undefined ? undefined : eq(lots.itemId, itemId),
      ),
    )
    .groupBy(suppliers.id)
    .orderBy(sql`lower(${suppliers.name})`)
}
