// The lots of a supplier, read for its standing.
import { and, count, eq, inArray } from 'drizzle-orm'
import { type Db, readTogether, type Tx } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { allOf } from '../kit/all-of.ts'
import { type Run, runOf } from '../kit/task.ts'
import { statesFor } from '../lots/rules/lifecycle.ts'
import { supplierOf } from '../register/suppliers.ts'
import { piecesOf } from './counted.ts'
import { countedLots } from './counted-lots.ts'
import { type SupplierSummary, summaryTask } from './summary.ts'

/** What the decided lots of a supplier showed. Throws Refusal (missing) where there is no such supplier. */
export async function supplierSummaryOf(db: Db, run: Run, supplierId: number): Promise<SupplierSummary> {
  const [supplier, counted, open] = await readTogether(db, (tx) =>
    allOf([supplierOf(tx, supplierId), countedLots(tx, { supplierId }), lotsUnderWay(tx, supplierId)]),
  )
  return runOf(piecesOf(counted), run)(summaryTask, { supplier, counted, open })
}

export async function lotsUnderWay(db: Db | Tx, supplierId: number): Promise<number> {
  const [open] = await db
    .select({ lots: count() })
    .from(lots)
    .where(and(eq(lots.supplierId, supplierId), inArray(lots.state, statesFor('withdraw'))))
  return open?.lots ?? 0
}
