// A supplier's past: its lots over time, each with what its cords showed and how sure that is.

import type { Task } from '../kit/task.ts'
import type { Interval } from '../statistics/bounds/fraction.ts'
import { lowerBoundInLot, upperBoundInLot } from '../statistics/bounds/lot.ts'
import { lowerBoundInLotAfter, upperBoundInLotAfter } from '../statistics/bounds/stopped.ts'
import { endOf, isFinished } from './counted.ts'
import type { CountedLot } from './counted-lots.ts'

/** Fractions nonconforming, each limit exact for the finite lot at 97.5 %: together at least 95 %. */

export type SummarisedLot = {
  lotId: number
  item: string
  size: number
  /** when the lot was decided */
  at: Date
  outcome: 'accepted' | 'conceded' | 'screened' | 'sorted' | 'returned'
  /** counts as accepted in the supplier's history; a concession does not */
  accepted: boolean
  /** cords that count: the sample, or all of them */
  recorded: number
  found: number
  /** every cord of the lot was recorded, so that the fraction is known and no estimate */
  whole: boolean
  /** testing stopped at the rejection number: found ÷ recorded is no fair estimate, so there is none */
  fraction: number | undefined
  interval: Interval
}

export type SupplierSummary = {
  supplier: { id: number; name: string }
  /** oldest first; decided lots only */
  lots: SummarisedLot[]
  /** lots announced and not decided yet, withdrawn ones left out */
  open: number
}

export const summaryTask: Task<
  Pick<SupplierSummary, 'supplier' | 'open'> & { counted: CountedLot[] },
  SupplierSummary
> = {
  name: 'supplier standing',
  work: ({ supplier, counted, open }) => summaryFrom(supplier, counted, open),
}

/** What the decided lots of a supplier showed. */
export function summaryFrom(
  supplier: SupplierSummary['supplier'],
  counted: CountedLot[],
  open: number,
): SupplierSummary {
  const lots = counted.flatMap(standing).toSorted((a, b) => a.at.getTime() - b.at.getTime())
  return { supplier, lots, open }
}

function standing(lot: CountedLot): SummarisedLot[] {
  const { lotId, item, size, decided, closing } = lot
  if (!decided) return []
  const { outcome, at } = closing ?? decided
  const finished = isFinished(lot)
  const { recorded, found } = finished ? lot.all : lot.sample
  const stopped = !finished && recorded < endOf(lot, recorded).sampleSize
  return [
    {
      lotId,
      item,
      size,
      at,
      outcome,
      accepted: outcome === 'accepted',
      recorded,
      found,
      whole: recorded === size,
      fraction: stopped ? undefined : found / recorded,
      interval: finished ? knownInterval(lot) : sampleInterval(lot),
    },
  ]
}

/** All cords have an entry: only those that a stand-in replaced are unknown. */
function knownInterval({ all, standIns, size }: CountedLot): Interval {
  return { lower: all.found / size, upper: (all.found + standIns) / size }
}

/**
 * After a stop the sample cords left untested count against the upper limit, as on the lot's own page. The limits of a plan of
 * several stages belong to the plan and the stage at which it ended.
 */
function sampleInterval(lot: CountedLot): Interval {
  const { size: lotSize, sample, stages } = lot
  const { recorded, found } = sample
  const { stage, sampleSize } = endOf(lot, recorded)
  const most = found + sampleSize - recorded
  if (stages.length > 1) {
    const end = { plan: { stages }, stage, lotSize, confidence: 0.975 }
    const lower = Math.max(found, lowerBoundInLotAfter({ ...end, found }))
    const upper = Math.min(upperBoundInLotAfter({ ...end, found: most }), lotSize - recorded + found)
    return { lower: lower / lotSize, upper: upper / lotSize }
  }
  const side = { lotSize, sampleSize, confidence: 0.975 }
  return {
    lower: lowerBoundInLot({ ...side, found }) / lotSize,
    upper: upperBoundInLot({ ...side, found: most }) / lotSize,
  }
}
