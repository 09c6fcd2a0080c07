// The arithmetic of a supplier's page.
import type { Task } from '../kit/task.ts'
import type { CountedLot, Faults } from './counted-lots.ts'
import { priorOfSuppliers, type SampledSupplier } from './rates.ts'
import { type Series, type SeriesFacts, seriesFrom } from './series/series.ts'
import { type SupplierSummary, summaryFrom } from './summary.ts'

/** What is wrong with a supplier's cords, over all that were recorded in decided lots, those of screenings too. */
export type FaultShares = {
  recorded: number
  nonconforming: number
  faults: Faults
  /** missing, or could not be tested */
  notTested: number
}

export type PastSums = SupplierSummary & {
  faults: FaultShares
  series: Series[]
}

export type PastFacts = {
  supplier: SupplierSummary['supplier']
  /** lots of this supplier; what the samples of all suppliers held */
  counted: CountedLot[]
  sampled: SampledSupplier[]
  open: number
  series: SeriesFacts[]
}

export const pastTask: Task<PastFacts, PastSums> = {
  name: 'supplier past',
  work({ supplier, counted, sampled, open, series }) {
    const prior = priorOfSuppliers(sampled)
    return {
      ...summaryFrom(supplier, counted, open),
      faults: faultSharesOf(counted.filter(({ decided }) => decided)),
      series: seriesFrom(series, counted, prior),
    }
  },
}

function faultSharesOf(decided: CountedLot[]): FaultShares {
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
