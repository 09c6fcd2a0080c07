// Everything that a supplier's page tells.
import type { Db } from '../../db/client.ts'
import type { Belief } from '../statistics/history/lower.ts'
import { countedLots, type Faults } from './history.ts'
import { supplierOf } from './list.ts'
import { type LotMargins, marginsOf } from './margins.ts'
import type { SupplierRate } from './rates.ts'
import { ratesOf } from './sampled-cords.ts'
import { type Series, seriesOf } from './series/series.ts'
import { lotsUnderWay, type Standing, standingFrom } from './standing.ts'

/** What is wrong with a supplier's cords, over all that were recorded in decided lots, those of screenings too. */
export type FaultShares = {
  recorded: number
  nonconforming: number
  faults: Faults
  /** missing, or could not be tested */
  notTested: number
}

export type SupplierPast = Standing & {
  /** drawn towards all suppliers; undefined where no cord of it was tested */
  rate: SupplierRate | undefined
  prior: Belief
  priorFrom: 'suppliers' | 'stated'
  /** suppliers with a decided lot, this one included */
  suppliers: number
  faults: FaultShares
  margins: LotMargins[]
  series: Series[]
}

/** Throws Refusal (missing) where there is no such supplier. */
export async function pastOf(db: Db, supplierId: number): Promise<SupplierPast> {
  const supplier = await supplierOf(db, supplierId)
  const counted = await countedLots(db, { supplierId })
  const { prior, priorFrom, suppliers } = await ratesOf(db)
  return {
    ...standingFrom(supplier, counted, await lotsUnderWay(db, supplierId)),
    rate: suppliers.find(({ id }) => id === supplierId),
    prior,
    priorFrom,
    suppliers: suppliers.length,
    faults: faultSharesOf(counted.filter(({ decided }) => decided)),
    margins: await marginsOf(db, supplierId),
    series: await seriesOf(db, supplierId, counted, prior),
  }
}

function faultSharesOf(decided: Awaited<ReturnType<typeof countedLots>>): FaultShares {
  const sum = (of: (lot: (typeof decided)[number]) => number) => decided.reduce((total, lot) => total + of(lot), 0)
  return {
    recorded: sum((lot) => lot.all.recorded),
    nonconforming: sum((lot) => lot.all.found),
    faults: {
      crosstalk: sum((lot) => lot.faults.crosstalk),
      returnLoss: sum((lot) => lot.faults.returnLoss),
      wireMap: sum((lot) => lot.faults.wireMap),
      visual: sum((lot) => lot.faults.visual),
      marginal: sum((lot) => lot.faults.marginal),
    },
    notTested: sum((lot) => lot.notTested),
  }
}
