// The arithmetic of the percentage sheet, on lots known cord by cord.
import type { Task } from '../../kit/task.ts'
import { fractionOfCords, fractionOfTerminations } from '../../statistics/clustering/terminations.ts'
import { type AlikeLots, type ReplayOnce, replayOnce } from './alike.ts'
import { replayedShare, type SamplesBeside, type ShareOfLots, samplesBeside } from './effort.ts'
import { averageFraction, type Remainders, remaindersOf, type SpoolFacts, usualLot } from './remainders.ts'
import type { ReplayedSample } from './trial.ts'

export type SheetQuestion = { known: AlikeLots[]; spools: SpoolFacts; percent: string; allowed: number }

/** Where the cable is sound: the share of cords, that of terminations behind it, and the line that joins such pairs. */
export type TerminationModel = { cords: number; termination: number; points: { termination: number; cords: number }[] }

/** Lots and those of them that held too many: accepted on average, cords shipped on average. */
export type ReplayTotals = { lots: number; heldTooMany: number; acceptedOfThose: number; shippedOfThose: number }

export type PercentageSheet = {
  byPlan: ReplayTotals
  afterScreening: ReplayTotals
  /** all known lots together */
  trial: ReplayedSample
  /** testing every cord of them: nothing escapes, nothing goes back whole */
  everyCord: { tests: number; cents: number }
  /** the trial for 1, 2 … 100 percent */
  curve: ReplayedSample[]
  beside: SamplesBeside | undefined
  /** over the known lots; the share of terminations that explains it where the cable is sound */
  making: TerminationModel | undefined
  spools: SpoolFacts
  remainders: Remainders
}

/** Exact over all samples that could have been drawn from each lot tested whole. */
export const sheetTask: Task<SheetQuestion, PercentageSheet> = { name: 'percentage sheet', work: sheetOf }

function sheetOf({ known, spools, percent, allowed }: SheetQuestion): PercentageSheet {
  const making = makingOf(known)
  const correlation = spools.correlation?.kind === 'estimated' ? spools.correlation.likelihood : undefined
  const replay = replayOnce()
  const share = { percent, acceptanceNumber: allowed }
  const totals = (byPlan: boolean) =>
    totalsOf(
      known.filter((alike) => alike.byPlan === byPlan),
      share,
      replay,
    )
  return {
    byPlan: totals(true),
    afterScreening: totals(false),
    trial: replayedShare(known, share, replay),
    everyCord: everyCordOf(known),
    curve: curveOf(known, allowed, replay),
    beside: samplesBeside(known, share, replay),
    making,
    spools,
    remainders: remaindersOf(usualLot, percent, { fraction: averageFraction(making?.cords), correlation }),
  }
}

function totalsOf(known: AlikeLots[], share: ShareOfLots, replay: ReplayOnce): ReplayTotals {
  const bad = known.filter(({ found, tooMany }) => found >= tooMany)
  const { acceptedTooMany, shipped } = replayedShare(bad, share, replay)
  return { lots: lotsIn(known), heldTooMany: lotsIn(bad), acceptedOfThose: acceptedTooMany, shippedOfThose: shipped }
}

function lotsIn(known: AlikeLots[]): number {
  return known.reduce((sum, { lots }) => sum + lots, 0)
}

function curveOf(known: AlikeLots[], acceptanceNumber: number, replay: ReplayOnce): ReplayedSample[] {
  const failing = known.filter(({ found }) => found > 0)
  return Array.from({ length: 100 }, (_, step) =>
    replayedShare(failing, { percent: String(step + 1), acceptanceNumber }, replay),
  )
}

function everyCordOf(known: AlikeLots[]) {
  const over = (of: (lot: AlikeLots) => number) => known.reduce((sum, lot) => sum + lot.lots * of(lot), 0)
  return { tests: over(({ size }) => size), cents: over(({ size, costTestCents }) => size * costTestCents) }
}

function makingOf(known: AlikeLots[]): TerminationModel | undefined {
  const cords = known.reduce((sum, { lots, size }) => sum + lots * size, 0)
  if (cords === 0) return undefined
  const share = known.reduce((sum, { lots, found }) => sum + lots * found, 0) / cords
  const termination = fractionOfTerminations(share)
  const end = Math.min(1, Math.max(0.02, 2 * termination))
  const points = Array.from({ length: 41 }, (_, step) => {
    const at = (end * step) / 40
    return { termination: at, cords: fractionOfCords({ termination: at, cable: 0 }) }
  })
  return { cords: share, termination, points }
}
