// What a percentage would have done to lots known cord by cord: arithmetic on their counts.

import { wholeCords } from '../../kit/decimal.ts'
import { largestLot } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Task } from '../../kit/task.ts'
import { singlePlan } from '../../statistics/plans/single.ts'
import { replayOnLot } from '../../statistics/replay.ts'
import type { CountedLot } from '../counted-lots.ts'

/** What a replay reads of a lot. */
export type KnownLot = Pick<CountedLot, 'lotId' | 'item' | 'size' | 'sampleSize' | 'tooMany'> & {
  all: { found: number }
}

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

export type ReplayQuestion = { known: KnownLot[]; percent: string; acceptanceNumber: number }
export type Replayed = { byPlan: ReplaySum; afterScreening: ReplaySum }

export const replayTask: Task<ReplayQuestion, Replayed> = {
  name: 'replay',
  work: ({ known, percent, acceptanceNumber }) => replayedIn(known, percent, acceptanceNumber),
}

/** As little of a lot as a replay reads: thousands of them go from one thread to another. */
export function knownLot(lot: CountedLot): KnownLot {
  const { lotId, item, size, sampleSize, tooMany, all } = lot
  return { lotId, item, size, sampleSize, tooMany, all: { found: all.found } }
}

/** The replay of known lots, those that were to be tested whole from the start and those screened later apart. */
export function replayedIn(known: KnownLot[], percent: string, acceptanceNumber: number): Replayed {
  const replayed = (which: (lot: KnownLot) => boolean) =>
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

export function checkPercent(percent: string): void {
  if (wholeCords(`${percent}%`, largestLot) === undefined)
    throw new Refusal('invalid', 'percentage/percent', {}, 'percent')
}

function replay(lot: KnownLot, percent: string, acceptanceNumber: number): ReplayedLot {
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
