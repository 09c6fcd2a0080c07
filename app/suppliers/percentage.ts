// The percentage question: what testing a fixed percentage would have done to lots of which every cord was tested.
import type { Db } from '../../db/client.ts'
import { wholeCords } from '../kit/decimal.ts'
import { Refusal } from '../kit/refusal.ts'
import { singlePlan } from '../statistics/plans/single.ts'
import { replayOnLot } from '../statistics/replay.ts'
import { type CountedLot, countedLots, isFinished } from './history.ts'
import { standingOf } from './standing.ts'

export type ReplayedLot = {
  lotId: number
  item: string
  size: number
  nonconforming: number
  /** the number that was too many for the lot by its frozen terms */
  tooMany: number
  heldTooMany: boolean
  /** what the percentage comes to in this lot, rounded up */
  sampleSize: number
  /** exact chance that the percentage would have accepted the lot */
  acceptance: number
  /** nonconforming cords it would then have shipped, on average over all draws */
  shipped: number
}

export type ReplaySum = {
  lots: ReplayedLot[]
  heldTooMany: number
  /** over the lots that held too many: accepted on average, cords shipped on average */
  acceptedOfThose: number
  shippedOfThose: number
}

export type PercentageQuestion = {
  supplier: { id: number; name: string }
  percent: string
  acceptanceNumber: number
  /** tested whole because the plan said so from the start */
  byPlan: ReplaySum
  /** tested whole because the sample had failed or the manager was not content: worse than usual */
  afterScreening: ReplaySum
  /** lots tested to the end that are left out because a cord was missing or could not be tested */
  leftOut: number
  /** the fraction used for the picture beside it: the supplier's own, or 2 % where it has none above 0 */
  fraction: { value: number; own: boolean }
}

const assumedFraction = 0.02

/**
 * Replays the percentage on every lot of the supplier of which each cord was tested, exactly, over all samples that
 * could have been drawn. Found cords are taken out of an accepted lot; a rejected lot ships none.
 *
 * @param percent plain decimal above 0, at most 100
 * @param acceptanceNumber nonconforming cords that the percentage allows
 */
export async function percentageQuestion(
  db: Db,
  supplierId: number,
  percent: string,
  acceptanceNumber: number,
): Promise<PercentageQuestion> {
  checkPercent(percent)
  if (!Number.isInteger(acceptanceNumber) || acceptanceNumber < 0)
    throw new Refusal('invalid', 'The acceptance number is a whole number from 0', 'allowed')
  const { supplier, own } = await standingOf(db, supplierId)
  const { known, leftOut } = knownWhole(await countedLots(db, { supplierId }))
  return {
    supplier,
    percent,
    acceptanceNumber,
    ...replayedIn(known, percent, acceptanceNumber),
    leftOut,
    fraction: own && own.found > 0 ? { value: own.fraction, own: true } : { value: assumedFraction, own: false },
  }
}

/** The lots of which every cord was tested, and how many that were tested to the end are left out for a cord that could not be. */
export function knownWhole(lots: CountedLot[]): { known: CountedLot[]; leftOut: number } {
  const finished = lots.filter(isFinished)
  const known = finished.filter((lot) => lot.notTested + lot.standIns === 0)
  return { known, leftOut: finished.length - known.length }
}

/** The replay of known lots, those that were to be tested whole from the start and those screened later apart. */
export function replayedIn(known: CountedLot[], percent: string, acceptanceNumber: number) {
  const replayed = (which: (lot: CountedLot) => boolean) =>
    sumOf(known.filter(which).map((lot) => replay(lot, percent, acceptanceNumber)))
  return {
    byPlan: replayed((lot) => lot.sampleSize === lot.size),
    afterScreening: replayed((lot) => lot.sampleSize < lot.size),
  }
}

/** Whole cords in a percentage of the lot, rounded up in decimal. */
export function percentageOf(lotSize: number, percent: string): number {
  checkPercent(percent)
  return wholeCords(`${percent}%`, lotSize) ?? lotSize
}

function checkPercent(percent: string): void {
  if (wholeCords(`${percent}%`, 1_000_000) === undefined)
    throw new Refusal('invalid', 'A percentage is above 0 and at most 100', 'percent')
}

function replay(lot: CountedLot, percent: string, acceptanceNumber: number): ReplayedLot {
  const { lotId, item, size, tooMany, all } = lot
  const sampleSize = percentageOf(size, percent)
  const plan = singlePlan({ sampleSize, acceptanceNumber })
  const { acceptance, shipped } = replayOnLot({ plan, lotSize: size, nonconforming: all.found })
  const heldTooMany = all.found >= tooMany
  return { lotId, item, size, nonconforming: all.found, tooMany, heldTooMany, sampleSize, acceptance, shipped }
}

function sumOf(lots: ReplayedLot[]): ReplaySum {
  const bad = lots.filter((lot) => lot.heldTooMany)
  return {
    lots,
    heldTooMany: bad.length,
    acceptedOfThose: bad.reduce((sum, lot) => sum + lot.acceptance, 0),
    shippedOfThose: bad.reduce((sum, lot) => sum + lot.shipped, 0),
  }
}
