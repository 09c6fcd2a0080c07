// The lots by what waits for whom.

import { desc, eq, inArray, isNotNull, type SQL } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots, plans } from '../../db/schema/lots.ts'
import { items, suppliers } from '../../db/schema/register.ts'
import { tallies } from '../../db/schema/results.ts'
import { countsByStage } from '../lots/record/tally.ts'
import { firstFetchOf } from '../lots/rules/first-fetch.ts'
import { openStates, wholeLotStates } from '../lots/rules/lifecycle.ts'
import { type NextStep, nextStepOf, nextSteps } from '../lots/rules/next-step.ts'
import { progressOf, type SampleCount } from '../lots/rules/progress.ts'
import type { LotState, Verdict } from '../terms/lot.ts'

export type LotLine = {
  id: number
  supplier: string
  item: string
  purchaseOrder: string
  productionMark: string
  /** counted, or announced before the count */
  size: number
  state: LotState
  verdict: Verdict | undefined
  /** the first fetch, which the standard's verdict needs, goes on */
  fetchOpen: boolean
  /** of the sample up to its running stage, or of all cords while the lot is screened */
  recorded: number
  toRecord: number
  /** when the lot last moved: an act on it, or an entry of one of its cords */
  since: Date
}

export type LotGroup = NextStep & { lots: LotLine[] }
export type LotsWaiting = {
  /** in the order of the record; only groups that hold a lot, each with the longest wait first */
  waiting: LotGroup[]
  /** the latest first, at most 200 */
  done: LotLine[]
}

const doneShown = 200

/** All lots that wait for somebody, grouped by what they wait for, and the latest that wait for nothing. */
export async function lotsWaiting(db: Db): Promise<LotsWaiting> {
  const open = await lines(db, inArray(lots.state, openStates)).orderBy(lots.movedAt, lots.id)
  const done = await lines(db, isNotNull(lots.doneAt)).orderBy(desc(lots.doneAt), desc(lots.id)).limit(doneShown)
  const staged = [...open, ...done].flatMap(({ lot, plan }) => (plan && plan.stages.length > 1 ? [lot.id] : []))
  const counts = await countsByStage(db, staged)
  const line = (row: Row) => lineOf(row, counts.get(row.lot.id))
  const waiting = open.map(line)
  const groups = nextSteps.map((turn) => ({
    ...turn,
    lots: waiting.filter((line) => nextStepOf(line.state, line.verdict, line.fetchOpen)?.act === turn.act),
  }))
  return { waiting: groups.filter((group) => group.lots.length > 0), done: done.map(line) }
}

function lines(db: Db, which: SQL) {
  return db
    .select({ lot: lots, supplier: suppliers.name, item: items.name, plan: plans, tally: tallies })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .innerJoin(items, eq(items.id, lots.itemId))
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .leftJoin(tallies, eq(tallies.lotId, lots.id))
    .where(which)
    .$dynamic()
}

type Row = Awaited<ReturnType<typeof lines>>[number]

/** stages: the counts of each stage, where the plan has several. */
function lineOf({ lot, supplier, item, plan, tally }: Row, stages: SampleCount[] | undefined): LotLine {
  const { id, state, purchaseOrder, productionMark } = lot
  const size = lot.size ?? lot.announcedSize
  const sample = { recorded: tally?.sampleRecorded ?? 0, found: tally?.sampleNonconforming ?? 0 }
  const several = plan !== null && plan.stages.length > 1
  const reached = plan ? progressOf(plan.stages, several ? (stages ?? []) : [sample]) : undefined
  const fetched = { recorded: tally?.firstFetchRecorded ?? 0, found: tally?.firstFetchFound ?? 0 }
  const fetch = plan ? firstFetchOf(plan, fetched) : undefined
  const screened = wholeLotStates.includes(state)
  return {
    id,
    supplier,
    item,
    purchaseOrder,
    productionMark,
    size,
    state,
    verdict: reached?.verdict,
    fetchOpen: fetch?.open ?? false,
    recorded: screened ? sample.recorded + (tally?.restRecorded ?? 0) : (reached?.recorded ?? 0),
    toRecord: screened ? size : reached ? reached.recorded + reached.left : 0,
    since: lot.movedAt,
  }
}
