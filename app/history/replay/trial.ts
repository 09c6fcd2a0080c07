// What a sample of each lot would have done to a history of lots known cord by cord.

import { singlePlan } from '../../statistics/plans/single.ts'
import { replayOnLot } from '../../statistics/replay.ts'
import type { KnownLot } from './replayed.ts'

/** Over all samples that could have been drawn. */
export type ReplayedSample = {
  /** lots with too many that would have been accepted, on average */
  acceptedTooMany: number
  /** nonconforming cords shipped on average, over all the lots */
  shipped: number
  /** the same in cents, at each lot's own cost of an escape */
  escapesCents: number
  /** cords tested when each sample is finished */
  tests: number
}

/** Tries a sample size for each lot; lots without a nonconforming cord ship none, whatever is tested. */
export function replayedSampleOf(
  lots: KnownLot[],
  sampleSizeOf: (lot: KnownLot) => number,
  acceptanceNumber: number,
): ReplayedSample {
  const trial: ReplayedSample = { acceptedTooMany: 0, shipped: 0, escapesCents: 0, tests: 0 }
  for (const lot of lots) {
    const sampleSize = sampleSizeOf(lot)
    trial.tests += sampleSize
    if (lot.all.found === 0) continue
    const plan = singlePlan({ sampleSize, acceptanceNumber })
    const { acceptance, shipped } = replayOnLot({ plan, lotSize: lot.size, nonconforming: lot.all.found })
    if (lot.all.found >= lot.tooMany) trial.acceptedTooMany += acceptance
    trial.shipped += shipped
    trial.escapesCents += shipped * lot.costEscapeCents
  }
  return trial
}
