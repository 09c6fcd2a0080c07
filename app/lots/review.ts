// What a manager sees before deciding on a lot: the lot, the margins of its cords, and the cords that would be taken out.
import { type Db, readTogether } from '../../db/client.ts'
import { allOf } from '../kit/all-of.ts'
import { Refusal } from '../kit/refusal.ts'
import { marginsIn, type ShownMargins } from './evidence/margins.ts'
import { cordFrameIn } from './record/cord-frame.ts'
import { type LotRecord, lotRecordOf } from './record/lot.ts'
import { type CordFacts, nonconformingCords, type PickListPart } from './record/pick-list.ts'
import type { LotBounds } from './rules/bounds.ts'

export type Review = { lot: LotRecord; bounds: LotBounds; margins: ShownMargins; failing: CordFacts[] }

/** Throws Refusal where the lot is not there, is not to be decided on, or its plan has no verdict. */
export function reviewOf(db: Db, lotId: number, page: PickListPart): Promise<Review> {
  return readTogether(db, async (tx) => {
    const lot = await lotRecordOf(tx, lotId)
    const { bounds, version: lotVersion, progress } = lot
    if (!lot.acts.accept) throw new Refusal('conflict', 'lot/not-to-decide', { lot: lot.id })
    if (!bounds) throw noVerdict(lot)
    // the counts stand in the tally: only the cords that the figure shows are read
    const recorded = progress.sampleRecorded + progress.restRecorded
    const [margins, failing] = await allOf([
      marginsIn(tx, { lotId, lotVersion, lastPick: undefined }, recorded),
      nonconformingCords(tx, cordFrameIn(lot), page),
    ])
    return { lot, bounds, margins, failing }
  })
}

/** A lot with its cords that do not conform, so many at most. Throws Refusal (missing) where it is not there. */
export function failingCordsOf(
  db: Db,
  lotId: number,
  page: PickListPart,
): Promise<{ lot: LotRecord; failing: CordFacts[] }> {
  return readTogether(db, async (tx) => {
    const lot = await lotRecordOf(tx, lotId)
    return { lot, failing: await nonconformingCords(tx, cordFrameIn(lot), page) }
  })
}

/** The count and no bound: nothing is proven yet, and nobody can decide. */
function noVerdict({ id, plan, progress: { sampleRecorded, sampleNonconforming } }: LotRecord): Refusal {
  const facts = { lot: id, recorded: sampleRecorded, sampleSize: plan?.sampleSize, found: sampleNonconforming }
  return new Refusal('conflict', 'decision/recorded-so-far', facts)
}
