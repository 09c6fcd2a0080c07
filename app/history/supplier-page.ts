// Everything that a supplier's page tells.
import type { Db } from '../../db/client.ts'
import { type Run, runOf } from '../kit/task.ts'
import { supplierOf } from '../register/suppliers.ts'
import { piecesOf } from './counted.ts'
import { countedLots } from './counted-lots.ts'
import { type LotMargins, marginsOf } from './margins.ts'
import { lotsUnderWay } from './read-summary.ts'
import { sampledCords } from './sampled-cords.ts'
import { seriesFacts } from './series/facts.ts'
import { piecesOfTrend } from './series/trend.ts'
import { type PastSums, pastTask } from './supplier-page-sums.ts'

export type SupplierHistory = PastSums & { margins: LotMargins[] }

/** Throws Refusal (missing) where there is no such supplier. */
export async function supplierHistoryOf(db: Db, run: Run, supplierId: number): Promise<SupplierHistory> {
  const supplier = await supplierOf(db, supplierId)
  const counted = await countedLots(db, { supplierId })
  const sampled = await sampledCords(db)
  const open = await lotsUnderWay(db, supplierId)
  const series = await seriesFacts(db, supplierId, counted)
  const margins = await marginsOf(db, supplierId)
  const pieces = series.length * piecesOfTrend + piecesOf(counted) + sampled.length
  const sums = await runOf(pieces, run)(pastTask, { supplier, counted, sampled, open, series })
  return { ...sums, margins }
}
