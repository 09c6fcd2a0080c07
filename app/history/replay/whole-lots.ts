// The latest lots tested whole, one by one, each with what the percentage would have done to it.
import { and, desc, eq, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots, plans } from '../../../db/schema/lots.ts'
import { items } from '../../../db/schema/register.ts'
import { tallies } from '../../../db/schema/results.ts'
import type { Run } from '../../kit/task.ts'
import { singlePlan } from '../../statistics/plans/single.ts'
import { replayOnLot } from '../../statistics/replay.ts'
import type { WhichLots } from '../counted-lots.ts'
import { readUntilMoved } from '../moved.ts'
import { everyCordTested, foundInAll, testedToTheEnd } from './alike-lots.ts'
import type { ShareOfLots } from './effort.ts'
import { percentageOf } from './percent.ts'

export type ReplayedLot = {
  lotId: number
  item: string
  size: number
  nonconforming: number
  /** the number that was too many for the lot by its frozen terms */
  tooMany: number
  heldTooMany: boolean
  /** what the percentage comes to in this lot, rounded up */
  sampleSize: number
  /** exact chance that the percentage would have accepted the lot */
  acceptance: number
  /** nonconforming cords it would then have shipped, on average over all draws */
  shipped: number
}

/** So many stand one by one; the sums are over all of them. */
export const lotsShown = 12

/** Newest first; a lot that is asked for by its number stands before them, if it is of those and tested whole. */
export async function wholeLots(
  db: Db,
  which: WhichLots & { lotId?: number | undefined },
  share: ShareOfLots,
  run: Run,
): Promise<ReplayedLot[]> {
  const { lotId, ...scope } = which
  const wanted = lotId === undefined ? [] : await rowsOf(db, scope, lotId)
  const others = (await latestRows(db, scope, run)).filter((lot) => lot.lotId !== lotId)
  return [...wanted, ...others].slice(0, lotsShown).map((lot) => replayed(lot, share))
}

/** Read once until the history moves: to find the latest ones thousands of lots may be looked at. */
const latestRows = readUntilMoved((db, which: WhichLots) => rowsOf(db, which, undefined))

type WholeLot = Pick<ReplayedLot, 'lotId' | 'item' | 'size' | 'nonconforming' | 'tooMany'>

async function rowsOf(db: Db, which: WhichLots, lotId: number | undefined): Promise<WholeLot[]> {
  const only = lotId === undefined ? undefined : eq(lots.id, lotId)
  return await db
    .select({
      lotId: lots.id,
      item: items.name,
      size: plans.lotSize,
      nonconforming: sql<number>`(${foundInAll})::int`,
      tooMany: plans.tooMany,
    })
    .from(lots)
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .innerJoin(items, eq(items.id, lots.itemId))
    .where(and(testedToTheEnd(which), everyCordTested, only))
    .orderBy(desc(lots.id))
    .limit(lotsShown)
}

function replayed(lot: WholeLot, { percent, acceptanceNumber }: ShareOfLots): ReplayedLot {
  const { size, nonconforming, tooMany } = lot
  const sampleSize = percentageOf(size, percent)
  const plan = singlePlan({ sampleSize, acceptanceNumber })
  const { acceptance, shipped } = replayOnLot({ plan, lotSize: size, nonconforming })
  return { ...lot, heldTooMany: nonconforming >= tooMany, sampleSize, acceptance, shipped }
}
