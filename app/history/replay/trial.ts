// What a sample of each lot would have done to a history of lots known cord by cord.

import type { PlanNumbers } from '../../statistics/plans/two-points.ts'
import type { AlikeLots, ReplayOnce } from './alike.ts'

/** Over all samples that could have been drawn, the samples finished. */
export type ReplayedSample = {
  /** lots with too many that would have been accepted, on average */
  acceptedTooMany: number
  /** nonconforming cords shipped on average, over all the lots */
  shipped: number
  /** cords tested in the samples */
  tests: number
  /** lots rejected on average, and those among them that did not hold too many */
  rejected: number
  rejectedGood: number
  /** on average, at each lot's own costs */
  cost: SampleCost
}

/** In cents: samples tested, cords that escape, rejected lots sent back, and the rest of rejected lots tested, as each item does it. */
export type SampleCost = { testing: number; escapes: number; returns: number; screening: number; total: number }

/** Tries a sample for each lot; lots without a nonconforming cord ship none, whatever is tested. */
export function replayedSampleOf(
  known: AlikeLots[],
  sampleFor: (lot: AlikeLots) => PlanNumbers,
  replay: ReplayOnce,
): ReplayedSample {
  const sum: ReplayedSample = { ...nothing, cost: { ...free } }
  for (const alike of known) {
    const { lots, found, tooMany, costTestCents, costEscapeCents } = alike
    const sample = sampleFor(alike)
    sum.tests += lots * sample.sampleSize
    sum.cost.testing += lots * sample.sampleSize * costTestCents
    if (found === 0) continue
    const { acceptance, shipped } = replay(alike, sample)
    if (found >= tooMany) sum.acceptedTooMany += lots * acceptance
    sum.shipped += lots * shipped
    sum.cost.escapes += lots * shipped * costEscapeCents
    addRejected(sum, alike, { rejection: lots * (1 - acceptance), sampleSize: sample.sampleSize })
  }
  const { testing, escapes, returns, screening } = sum.cost
  sum.cost.total = testing + escapes + returns + screening
  return sum
}

const nothing = { acceptedTooMany: 0, shipped: 0, tests: 0, rejected: 0, rejectedGood: 0 }
const free: SampleCost = { testing: 0, escapes: 0, returns: 0, screening: 0, total: 0 }

/** @param rejection lots like this one that are rejected, on average */
function addRejected(
  sum: ReplayedSample,
  { size, found, tooMany, costTestCents, costReturnCents, afterRejection }: AlikeLots,
  { rejection, sampleSize }: { rejection: number; sampleSize: number },
): void {
  sum.rejected += rejection
  if (found < tooMany) sum.rejectedGood += rejection
  switch (afterRejection) {
    case 'return':
      sum.cost.returns += rejection * costReturnCents
      return
    case 'screen':
      sum.cost.screening += rejection * (size - sampleSize) * costTestCents
  }
}
