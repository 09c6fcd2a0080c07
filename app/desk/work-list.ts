// The lots by what waits for whom.

import { and, count, eq, inArray, isNotNull, type SQL } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots, plans } from '../../db/schema/lots.ts'
import { items, suppliers } from '../../db/schema/register.ts'
import { tallies } from '../../db/schema/results.ts'
import { type UndecidedPick, undecidedByStage, undecidedPicks } from '../lots/record/not-had.ts'
import { countsByStage, planOnRecount } from '../lots/record/tally.ts'
import { firstFetchOf } from '../lots/rules/first-fetch.ts'
import { openStates, wholeLotStates } from '../lots/rules/lifecycle.ts'
import { type NextStep, nextStepOf, nextSteps } from '../lots/rules/next-step.ts'
import { progressOf, type SampleCount } from '../lots/rules/progress.ts'
import { testingOf } from '../lots/rules/undecided.ts'
import type { LotState, Verdict } from '../terms/lot.ts'
import { foundBy } from './find.ts'

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
  /** drawn cords that are gone or spoiled here: the manager rules */
  undecided: number
  /** cords left to test besides these */
  toDo: number
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
  /** how many lots wait for nothing any more */
  closed: number
}

/** All lots that wait for somebody, grouped by what they wait for. `words`: only those in which all of them are found. */
export async function lotsWaiting(db: Db, words: readonly string[] = []): Promise<LotsWaiting> {
  const open = await lotLines(db, and(inArray(lots.state, openStates), foundBy(words)), (query) =>
    query.orderBy(lots.movedAt, lots.id),
  )
  const [closed] = await db.select({ count: count() }).from(lots).where(isNotNull(lots.doneAt))
  const groups = nextSteps.map((turn) => ({
    ...turn,
    lots: open.filter((line) => nextStepOf(line)?.act === turn.act),
  }))
  return { waiting: groups.filter((group) => group.lots.length > 0), closed: closed?.count ?? 0 }
}

type Lines = ReturnType<typeof lines>

/** The lots of this condition as the lists show them, in the order and as many as `part` says. */
export async function lotLines(db: Db, which: SQL | undefined, part: (query: Lines) => Lines): Promise<LotLine[]> {
  const rows = await part(lines(db, which))
  const staged = rows.flatMap(({ lot, plan }) => (plan && plan.stages.length > 1 ? [lot.id] : []))
  const counts = await countsByStage(db, staged)
  const undecided = await undecidedPicks(
    db,
    rows.flatMap(({ lot, tally }) => (tally && tally.undecided > 0 ? [lot.id] : [])),
  )
  return rows.map((row) => lineOf(row, counts.get(row.lot.id), undecided.get(row.lot.id) ?? []))
}

function lines(db: Db, which: SQL | undefined) {
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

/** stages: the counts of each stage, where the plan has several; undecided: such cords. */
function lineOf(row: Row, stages: SampleCount[] | undefined, undecided: UndecidedPick[]): LotLine {
  const { lot, supplier, item, tally } = row
  const { id, state, purchaseOrder, productionMark } = lot
  const size = lot.size ?? lot.announcedSize
  const { reached, fetchOpen, toDo } = testingIn(row, stages, undecided)
  const screened = wholeLotStates.includes(state)
  return {
    ...{ id, supplier, item, purchaseOrder, productionMark, size, state },
    verdict: reached?.verdict,
    fetchOpen,
    undecided: undecided.length,
    toDo,
    recorded: screened ? (tally?.sampleRecorded ?? 0) + (tally?.restRecorded ?? 0) : (reached?.recorded ?? 0),
    toRecord: screened ? size : reached ? reached.recorded + reached.left : 0,
    since: lot.movedAt,
  }
}

/** How far the sample has come. */
function testingIn({ plan: frozen, tally }: Row, stages: SampleCount[] | undefined, undecided: UndecidedPick[]) {
  if (!frozen) return { reached: undefined, fetchOpen: false, toDo: 0 }
  const plan = planOnRecount(frozen, { recountedSize: tally?.recountedSize ?? undefined })
  const sample = { recorded: tally?.sampleRecorded ?? 0, found: tally?.sampleNonconforming ?? 0 }
  const counts = plan.stages.length > 1 ? (stages ?? []) : [sample]
  const { toDo } = testingOf(plan.stages, { counts, undecided: undecidedByStage(undecided), replaced: [] })
  const fetched = { recorded: tally?.firstFetchRecorded ?? 0, found: tally?.firstFetchFound ?? 0 }
  const picks = undecided.map(({ pick }) => pick)
  const fetch = firstFetchOf(plan, fetched, picks)
  const toFetch = fetch?.open ? (fetch.left ?? 0) - fetch.undecided : 0
  return { reached: progressOf(plan.stages, counts), fetchOpen: fetch?.open ?? false, toDo: Math.max(toDo, toFetch) }
}
