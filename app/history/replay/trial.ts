// What a sample of each lot would have done to a history of lots known cord by cord.

import type { AlikeLots, ReplayOnce } from './alike.ts'

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
  known: AlikeLots[],
  sampleSizeOf: (lot: AlikeLots) => number,
  replay: ReplayOnce,
): ReplayedSample {
  const sample: ReplayedSample = { acceptedTooMany: 0, shipped: 0, escapesCents: 0, tests: 0 }
  for (const alike of known) {
    const { lots, found, tooMany, costEscapeCents } = alike
    const sampleSize = sampleSizeOf(alike)
    sample.tests += lots * sampleSize
    if (found === 0) continue
    const { acceptance, shipped } = replay(alike, sampleSize)
    if (found >= tooMany) sample.acceptedTooMany += lots * acceptance
    sample.shipped += lots * shipped
    sample.escapesCents += lots * shipped * costEscapeCents
  }
  return sample
}
