// The arithmetic of the percentage sheet, on lots known cord by cord.
import type { Task } from '../../kit/task.ts'
import { fractionOfCords, fractionOfTerminations } from '../../statistics/clustering/terminations.ts'
import type { LotResult } from '../../statistics/history/lots.ts'
import { type FixedSampleComparison, fixedSampleComparison } from './effort.ts'
import { factsOfSpools, type Remainders, remaindersOf, type SpoolFacts } from './remainders.ts'
import { type KnownLot, percentageOf, type ReplaySum, replayedIn } from './replayed.ts'
import { type ReplayedSample, replayedSampleOf } from './trial.ts'

export type SheetQuestion = { known: KnownLot[]; spools: LotResult[]; percent: string; allowed: number }

/** Where the cable is sound: the share of cords, that of terminations behind it, and the line that joins such pairs. */
export type TerminationModel = { cords: number; termination: number; points: { termination: number; cords: number }[] }

export type PercentageSheet = {
  byPlan: ReplaySum
  afterScreening: ReplaySum
  /** all known lots together */
  trial: ReplayedSample
  /** against testing every cord: tests not made, and what they would have cost */
  saved: { tests: number; cents: number }
  /** the trial for 1, 2 … 100 percent */
  curve: ReplayedSample[]
  effort: FixedSampleComparison | undefined
  /** over the known lots; the share of terminations that explains it where the cable is sound */
  making: TerminationModel | undefined
  spools: SpoolFacts
  remainders: Remainders
}

const usualLot = 480
const usualFraction = 0.02

/** Exact over all samples that could have been drawn from each lot tested whole. */
export const sheetTask: Task<SheetQuestion, PercentageSheet> = { name: 'percentage sheet', work: sheetOf }

function sheetOf({ known, spools: groups, percent, allowed }: SheetQuestion): PercentageSheet {
  const spools = factsOfSpools(groups)
  const making = makingOf(known)
  const correlation = spools.correlation?.kind === 'estimated' ? spools.correlation.likelihood : undefined
  return {
    ...replayedIn(known, percent, allowed),
    trial: replayedSampleOf(known, (lot) => percentageOf(lot.size, percent), allowed),
    saved: savedBy(known, percent),
    curve: curveOf(known, allowed),
    effort: fixedSampleComparison(known, percent, allowed),
    making,
    spools,
    remainders: remaindersOf(usualLot, percentageOf(usualLot, percent), {
      fraction: making && making.cords > 0 ? making.cords : usualFraction,
      correlation,
    }),
  }
}

function curveOf(known: KnownLot[], allowed: number): ReplayedSample[] {
  const failing = known.filter((lot) => lot.all.found > 0)
  return Array.from({ length: 100 }, (_, step) =>
    replayedSampleOf(failing, (lot) => percentageOf(lot.size, String(step + 1)), allowed),
  )
}

function savedBy(known: KnownLot[], percent: string) {
  let tests = 0
  let cents = 0
  for (const lot of known) {
    const spared = lot.size - percentageOf(lot.size, percent)
    tests += spared
    cents += spared * lot.costTestCents
  }
  return { tests, cents }
}

function makingOf(known: KnownLot[]): TerminationModel | undefined {
  const cords = known.reduce((sum, lot) => sum + lot.size, 0)
  if (cords === 0) return undefined
  const share = known.reduce((sum, lot) => sum + lot.all.found, 0) / cords
  const termination = fractionOfTerminations(share)
  const end = Math.min(1, Math.max(0.02, 2 * termination))
  const points = Array.from({ length: 41 }, (_, step) => {
    const at = (end * step) / 40
    return { termination: at, cords: fractionOfCords({ termination: at, cable: 0 }) }
  })
  return { cords: share, termination, points }
}
