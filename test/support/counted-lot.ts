// A lot as the history counts it, for what is reckoned from counts alone.
import type { CountedLot } from '../../app/history/counted-lots.ts'

/** A lot of so many cords, all tested by plan, in the order of its number. */
export function lotOf(lotId: number, size: number, found: number, requirements: Partial<CountedLot> = {}): CountedLot {
  const at = new Date(Date.UTC(2031, 0, lotId))
  return {
    lotId,
    supplierId: 1,
    itemId: 1,
    item: 'Grey cord',
    isolated: false,
    resubmitted: false,
    replacement: false,
    planKind: 'every-cord',
    acceptanceNumber: size,
    size,
    sampleSize: size,
    stages: [{ sampleSize: size, acceptanceNumber: size, rejectionNumber: size + 1 }],
    tooMany: 5,
    costTestCents: 160,
    costEscapeCents: 9500,
    sample: { recorded: size, found },
    all: { recorded: size, found },
    faults: { crosstalk: 0, returnLoss: 0, wireMap: 0, visual: 0, marginal: 0 },
    notTested: 0,
    standIns: 0,
    decided: { outcome: 'accepted', at, verdict: 'accept', recorded: size, found },
    closing: undefined,
    ...requirements,
  }
}
