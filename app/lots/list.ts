// The lots by what waits for whom.
import { desc, eq, inArray, notInArray, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots, plans } from '../../db/schema/lots.ts'
import { items, suppliers } from '../../db/schema/register.ts'
import { tallies } from '../../db/schema/results.ts'
import { verdictOf } from './decision/verdict.ts'
import type { LotState, Verdict } from './show.ts'
import { acts, type Turn, turnOf } from './turn.ts'

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
  /** of the sample, or of all cords while the lot is screened */
  recorded: number
  toRecord: number
  /** when the last step was done */
  since: Date
}

export type LotGroup = Turn & { lots: LotLine[] }
export type LotsWaiting = {
  /** in the order of the story; only groups that hold a lot, each with the longest wait first */
  waiting: LotGroup[]
  /** the latest first, at most 200 */
  done: LotLine[]
}

const doneStates = ['accepted', 'conceded', 'sorted', 'returned', 'withdrawn'] as const
const doneShown = 200

/** All lots that wait for somebody, grouped by what they wait for, and the latest that wait for nothing. */
export async function lotsWaiting(db: Db): Promise<LotsWaiting> {
  const open = await lines(db, notInArray(lots.state, [...doneStates])).orderBy(since, lots.id)
  const done = await lines(db, inArray(lots.state, [...doneStates]))
    .orderBy(desc(since), desc(lots.id))
    .limit(doneShown)
  const waiting = open.map(lineOf)
  const groups = acts.map((turn) => ({
    ...turn,
    lots: waiting.filter((line) => turnOf(line.state, line.verdict)?.act === turn.act),
  }))
  return { waiting: groups.filter((group) => group.lots.length > 0), done: done.map(lineOf) }
}

/** The audit's last line about a lot is when its last step was done. */
const since = sql<Date>`(select max(at) from audit where subject = 'lot/' || ${lots}.id)`.mapWith(lots.announcedAt)

function lines(db: Db, which: ReturnType<typeof inArray>) {
  return db
    .select({ lot: lots, supplier: suppliers.name, item: items.name, plan: plans, tally: tallies, since })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .innerJoin(items, eq(items.id, lots.itemId))
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .leftJoin(tallies, eq(tallies.lotId, lots.id))
    .where(which)
    .$dynamic()
}

function lineOf({ lot, supplier, item, plan, tally, since }: Awaited<ReturnType<typeof lines>>[number]): LotLine {
  const { id, state, purchaseOrder, productionMark } = lot
  const size = lot.size ?? lot.announcedSize
  const count = { recorded: tally?.sampleRecorded ?? 0, found: tally?.sampleNonconforming ?? 0 }
  const screened = state === 'screening' || state === 'screened' || state === 'sorted'
  return {
    id,
    supplier,
    item,
    purchaseOrder,
    productionMark,
    size,
    state,
    verdict: plan ? verdictOf(plan, count) : undefined,
    recorded: screened ? count.recorded + (tally?.restRecorded ?? 0) : count.recorded,
    toRecord: screened ? size : (plan?.sampleSize ?? 0),
    since,
  }
}
