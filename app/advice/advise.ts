// The plan page of one lot, announced or received: what is known of it is read here, and worked out where nobody waits for it.
import type { Db } from '../../db/client.ts'
import type { FinishedLot } from '../history/finished.ts'
import type { Run } from '../kit/task.ts'
import type { LotRecord } from '../lots/record/lot.ts'
import { readLot } from '../lots/record/lot.ts'
import type { OutsideSeries } from '../series/outside.ts'
import type { KnownInspection } from '../series/switching.ts'
import { cartonsOpened } from '../statistics/cartons-opened.ts'
import type { StandardWish } from './alternatives.ts'
import { finishedLotsFor } from './history.ts'
import { standardFor } from './standard.ts'
import { type AskedOfAdvice, adviceTask, type Requirements, type WorkedOut } from './work-out.ts'

export type Advice = WorkedOut & {
  lot: LotRecord
  requirements: Requirements
  critical: boolean
  /** the standard's plan is compared only where a contract names its limit and the lot belongs to a series */
  standard: StandardWish | undefined
  /** how strictly the series is inspected; undefined where no contract names a limit, or the lot stands in no series */
  inspection: KnownInspection | undefined
  /** cords of a group, and how many cartons its picks open on average */
  group: { size: number; cartonsOpened: number }
  /** why the lot stands in no series; undefined where it does */
  outside: OutsideSeries | undefined
  /** of this item from this supplier, in the order of their decisions */
  finished: FinishedLot[]
}

/** Works out the advice. Costs are in whole cents of the firm's currency; replacements and credits are left out. */
export async function adviceFor(db: Db, run: Run, lotId: number, asked: AskedOfAdvice): Promise<Advice> {
  const lot = await readLot(db, lotId)
  const { critical, outside, standard, inspection, tightened } = await standardFor(db, lotId)
  const finished = await finishedLotsFor(db, lot)
  const { size, terms } = lot
  const requirements = { ...asked, afterRejection: asked.afterRejection ?? terms.afterRejection }
  const before = beforeOf(lot)
  const inSeries = outside === undefined
  const { groupSize } = lot.item
  const question = { size, terms, requirements, groupSize, critical, standard, inSeries, tightened, before, finished }
  const worked = await run(adviceTask, question)
  return { ...worked, group: groupIn(lot), lot, requirements, critical, outside, standard, inspection, finished }
}

function groupIn({ size: lotSize, item: { groupSize: size }, announced: { cordsInCarton } }: LotRecord) {
  const picks = Math.min(size, lotSize)
  return { size, cartonsOpened: cartonsOpened({ lotSize, unitsInCarton: cordsInCarton, picks }) }
}

/** The plan that a resubmitted lot was rejected by. */
function beforeOf({ links: { former } }: LotRecord) {
  return former?.kind === 'resubmission' ? former.plan : undefined
}
