// What the bench shows: the lot, the cord that comes next, the one before it, and the marks to be taken over.
import { type Db, readTogether, type Tx } from '../../db/client.ts'
import { allOf } from '../kit/all-of.ts'
import { Refusal } from '../kit/refusal.ts'
import type { Person } from '../terms/person.ts'
import { type CordRecord, lastMarks, type Marks } from './record/cord.ts'
import { cordFrameIn } from './record/cord-frame.ts'
import { type LotRecord, lotRecordOf } from './record/lot.ts'
import { type CordFacts, cordIn, cordRowAt, nextToTest } from './record/pick-list.ts'

export type Bench = {
  lot: LotRecord
  /** the next to be tested; undefined where none is left */
  cord: CordRecord | undefined
  /** the one that was asked to be shown once more */
  last: CordFacts | undefined
  marks: Marks
}

/** after: the position from which one goes on. Throws Refusal where the lot is not there, or not drawn. */
export function benchOf(
  db: Db,
  inspector: Person,
  lotId: number,
  { after, showLast }: { after: number; showLast: boolean },
): Promise<Bench> {
  return readTogether(db, async (tx) => {
    const [lot, row] = await allOf([lotRecordOf(tx, lotId), showLast ? cordRowAt(tx, lotId, after) : undefined])
    if (!lot.draw) throw new Refusal('conflict', 'lot/not-drawn', { lot: lot.id })
    const last = cordIn(row, cordFrameIn(lot))
    if (lot.progress.toDo === 0) return { lot, cord: undefined, last, marks: noMarks } // no cord is looked at
    const [next, marks] = await allOf([nextOf(tx, lot, after, last), lastMarks(tx, lot.id, inspector.id)])
    // without an entry, and so without earlier ones
    return { lot, cord: next && { ...next, earlier: [] }, last, marks: next ? marks : noMarks }
  })
}

const noMarks = { carton: '', spool: '', testerSerial: '' }

/**
 * While the first fetch goes on its cords come first, each part of a stage from its first carton; it goes on after the plan has its
 * verdict too. Of a plan with several stages only the running one is tested; once it accepts, nothing else is.
 */
async function nextOf(tx: Tx, lot: LotRecord, after: number, last: CordFacts | undefined) {
  const { acts, plan, testedStage, verdict, firstFetch } = lot
  const frame = cordFrameIn(lot)
  if (!acts.accept || !plan) return nextToTest(tx, frame, after)
  const running = plan.stages.length > 1 ? testedStage : undefined
  const among = (stage: number | undefined, firstPicks: number | undefined) => {
    const begun =
      last === undefined ||
      ((stage === undefined || last.stage === stage) &&
        (frame.firstPicks === undefined || last.firstFetch === (firstPicks !== undefined)))
    return nextToTest(tx, frame, begun ? after : 0, { stage, firstPicks })
  }
  const fetched = firstFetch?.open
    ? await among(verdict === undefined ? running : undefined, firstFetch.sampleSize)
    : undefined
  return fetched ?? among(running, undefined)
}
