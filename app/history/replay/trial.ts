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
  /** lots rejected on average, those among them that did not hold too many, and what sending back all of them costs, in cents */
  rejected: number
  rejectedGood: number
  returnsCents: number
  /** the rest of the rejected lots, on average, where it is tested instead: cords, and cents of tests */
  screened: number
  screenedCents: number
}

/** Tries a sample size for each lot; lots without a nonconforming cord ship none, whatever is tested. */
export function replayedSampleOf(
  known: AlikeLots[],
  sampleSizeOf: (lot: AlikeLots) => number,
  replay: ReplayOnce,
): ReplayedSample {
  const sample: ReplayedSample = { ...nothing }
  for (const alike of known) {
    const { lots, found, tooMany, costEscapeCents } = alike
    const sampleSize = sampleSizeOf(alike)
    sample.tests += lots * sampleSize
    if (found === 0) continue
    const { acceptance, shipped } = replay(alike, sampleSize)
    if (found >= tooMany) sample.acceptedTooMany += lots * acceptance
    sample.shipped += lots * shipped
    sample.escapesCents += lots * shipped * costEscapeCents
    addRejected(sample, alike, { rejection: lots * (1 - acceptance), sampleSize })
  }
  return sample
}

const nothing: ReplayedSample = {
  ...{ acceptedTooMany: 0, shipped: 0, escapesCents: 0, tests: 0 },
  ...{ rejected: 0, rejectedGood: 0, returnsCents: 0, screened: 0, screenedCents: 0 },
}

/** @param rejection lots like this one that are rejected, on average */
function addRejected(
  sample: ReplayedSample,
  { size, found, tooMany, costTestCents, costReturnCents }: AlikeLots,
  { rejection, sampleSize }: { rejection: number; sampleSize: number },
): void {
  sample.rejected += rejection
  if (found < tooMany) sample.rejectedGood += rejection
  sample.returnsCents += rejection * costReturnCents
  sample.screened += rejection * (size - sampleSize)
  sample.screenedCents += rejection * (size - sampleSize) * costTestCents
}
