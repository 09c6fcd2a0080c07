// The standard's own plan as it is frozen with a lot's: in the severity that the series has at that moment.
import type { Tx } from '../../db/client.ts'
import type { FrozenStandard } from '../lots/rules/first-fetch.ts'
import { switchingOf } from './inspection.ts'
import { outsideSeries, type SeriesLot } from './outside.ts'
import type { Switching } from './switching.ts'
import { standardIn } from './terms.ts'

/**
 * The columns of a plan that keep it, all none where no contract names a limit or the lot stands in no series. Two lots of a series that
 * are planned and decided at once are told apart by the order in which the database keeps them.
 */
export async function standardToFreeze(
  tx: Tx,
  lot: SeriesLot & { supplierId: number; itemId: number },
): Promise<FrozenColumns> {
  if (outsideSeries(lot)) return columnsOf(undefined)
  const series = await switchingOf(tx, lot)
  return columnsOf(series && standardIn(series.terms, lot.size, severityOf(series.switching)))
}

/** The severity for the next lot: where the state is not known the strictest that is possible, as a lot taken while the series is discontinued. */
export function severityOf({ state: { inspection } }: Switching): FrozenStandard['severity'] {
  return inspection === 'discontinued' ? 'tightened' : inspection
}

type FrozenColumns = ReturnType<typeof columnsOf>

function columnsOf(standard: FrozenStandard | undefined) {
  return {
    standardSampleSize: standard?.sampleSize,
    standardAcceptanceNumber: standard?.acceptanceNumber,
    standardRejectionNumber: standard?.rejectionNumber,
    standardSeverity: standard?.severity,
    standardLimit: standard?.limit,
    standardLevel: standard?.level,
    standardLetter: standard?.letter,
    standardStanding: standard?.standing,
  }
}
