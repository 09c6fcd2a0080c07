// A decided lot as the switching rules have it, for what is worked out from counts alone.
import type { FrozenStandard } from '../../app/lots/rules/first-fetch.ts'
import type { InspectedLotFacts } from '../../app/series/inspected-lots.ts'

/** 480 cords, level II, 1.0 %: letter H. MIL-STD-105E (1989), Table II-A, read: 50 cords, 1 may fail. */
export const normalPlan: FrozenStandard = {
  sampleSize: 50,
  acceptanceNumber: 1,
  rejectionNumber: 2,
  severity: 'normal',
  limit: '1.0',
  level: 'II',
  letter: 'H',
  standing: 'read',
}

/** A lot of 480 cords with the plan for normal inspection frozen, planned and decided on the day of its number; all its first picks are tested. */
export function inspectedLot(lotId: number, found: number, wanted: Partial<InspectedLotFacts> = {}): InspectedLotFacts {
  const { sampleSize } = wanted.standard ?? normalPlan
  return {
    lotId,
    supplierId: 1,
    itemId: 1,
    size: 480,
    isolated: false,
    resubmissionOf: null,
    replacementOf: null,
    drawn: 216,
    frozenAt: new Date(Date.UTC(2031, 0, lotId, 8)),
    decidedAt: new Date(Date.UTC(2031, 0, lotId, 12)),
    standard: normalPlan,
    picks: [{ sampleSize, recorded: sampleSize, found }],
    ...wanted,
  }
}
