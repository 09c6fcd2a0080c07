// Suppliers as the list shows them.
import { desc, eq, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { suppliers } from '../../db/schema/register.ts'
import { Refusal } from '../kit/refusal.ts'

/** lots: all but the withdrawn ones; decided: those that wait for nothing any more; lastAt: the latest announcement. */
export type SupplierLine = { id: number; name: string; lots: number; decided: number; lastAt: Date | undefined }

/** All suppliers, those with the latest lot first. */
export async function suppliersOf(db: Db): Promise<SupplierLine[]> {
  const counted = sql<number>`count(*) filter (where ${lots.state} <> 'withdrawn')::int`
  const decided = sql<number>`count(*) filter (where ${lots.state} in ('accepted', 'conceded', 'sorted', 'returned'))::int`
  const lastAt = sql<Date | null>`max(${lots.announcedAt})`.mapWith(lots.announcedAt)
  const rows = await db
    .select({ id: suppliers.id, name: suppliers.name, lots: counted, decided, lastAt })
    .from(suppliers)
    .leftJoin(lots, eq(lots.supplierId, suppliers.id))
    .groupBy(suppliers.id)
    .orderBy(sql`${lastAt} desc nulls last`, desc(suppliers.id))
  return rows.map((row) => ({ ...row, lastAt: row.lastAt ?? undefined }))
}

/** The same as names to choose from, without a count of their lots. */
export async function supplierChoices(db: Db): Promise<{ id: number; name: string }[]> {
  const lastAt = sql`(select l.announced_at from ${lots} l where l.supplier_id = ${suppliers}.id order by l.id desc limit 1)`
  return db
    .select({ id: suppliers.id, name: suppliers.name })
    .from(suppliers)
    .orderBy(sql`${lastAt} desc nulls last`, desc(suppliers.id))
}

/** One supplier; throws Refusal (missing) where there is none of that number. */
export async function supplierOf(db: Db | Tx, supplierId: number): Promise<{ id: number; name: string }> {
  const [supplier] = await db
    .select({ id: suppliers.id, name: suppliers.name })
    .from(suppliers)
    .where(eq(suppliers.id, supplierId))
  if (!supplier) throw new Refusal('missing', 'supplier/missing', { supplier: supplierId })
  return supplier
}
