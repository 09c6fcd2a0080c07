// The drawn cords of a lot that cannot be had: those undecided, the manager's rulings, and the recounts.
import { and, asc, eq, inArray, isNotNull, ne, sql } from 'drizzle-orm'
import { alias } from 'drizzle-orm/pg-core'
import type { Db, Tx } from '../../../db/client.ts'
import { recounts, rulings } from '../../../db/schema/cords.ts'
import { people } from '../../../db/schema/people.ts'
import { drawnCords, results } from '../../../db/schema/results.ts'
import { allOf } from '../../kit/all-of.ts'
import type { CordRuling, ResultKind } from '../../terms/cord.ts'
import type { Tally } from './tally.ts'

export type UndecidedCord = {
  position: number
  kind: ResultKind
  note: string
  stage: number
  /** the pick of the draw whose place it holds */
  pick: number
  by: string
  at: Date
}

/** known: what was recorded, found and undecided in the sample when it was ruled, this cord included */
export type RulingFacts = {
  position: number
  kind: ResultKind
  /** as it was reported */
  note: string
  ruling: CordRuling
  reason: string
  known: { recorded: number; found: number; undecided: number }
  /** position of the reserve that took its place */
  standIn?: number | undefined
  by: string
  at: Date
}

/** size: cords of the lot after it */
export type RecountFacts = {
  position: number
  size: number
  reason: string
  standIn?: number | undefined
  by: string
  at: Date
}

export type NotHad = {
  undecided: UndecidedCord[]
  rulings: RulingFacts[]
  recounts: RecountFacts[]
  /** cords of each stage alone in whose place a reserve counts, though they were in the lot */
  replaced: number[]
}

/** In the order of positions, recounts in that of their time. Read only where the tally tells of any. */
export async function notHadOf(db: Db | Tx, lotId: number, tally: Tally): Promise<NotHad> {
  const { undecided, replaced, noCord, notTested } = tally
  const [open, ruled, recounted, stages] = await allOf([
    undecided > 0 ? undecidedOf(db, lotId) : [],
    replaced + notTested > 0 ? rulingsOf(db, lotId) : [],
    noCord > 0 ? recountsOf(db, lotId) : [],
    replaced > 0 ? replacedByStage(db, lotId) : [],
  ])
  return { undecided: open, rulings: ruled, recounts: recounted, replaced: stages }
}

/** Stage and pick of an undecided cord. */
export type UndecidedPick = Pick<UndecidedCord, 'stage' | 'pick'>

/** Those of several lots, by lot. */
export async function undecidedPicks(db: Db | Tx, lotIds: number[]): Promise<Map<number, UndecidedPick[]>> {
  const byLot = new Map<number, UndecidedPick[]>()
  if (lotIds.length === 0) return byLot
  const rows = await db
    .select({ lotId: results.lotId, stage: drawnCords.stage, pick: heldPick })
    .from(results)
    .innerJoin(drawnCords, and(eq(drawnCords.lotId, results.lotId), eq(drawnCords.position, results.position)))
    .where(and(inArray(results.lotId, lotIds), sql`${results.undecided}`))
  for (const { lotId, stage, pick } of rows)
    byLot.set(lotId, [...(byLot.get(lotId) ?? []), { stage: stage ?? 1, pick }])
  return byLot
}

const heldPick = sql<number>`coalesce(${drawnCords.takesPick}, ${drawnCords.pick})`

/** How many of them each stage has, by stage. */
export function undecidedByStage(undecided: readonly UndecidedPick[]): number[] {
  const byStage: number[] = []
  for (const { stage } of undecided) byStage[stage - 1] = (byStage[stage - 1] ?? 0) + 1
  return Array.from(byStage, (count) => count ?? 0)
}

async function undecidedOf(db: Db | Tx, lotId: number): Promise<UndecidedCord[]> {
  const { position, kind, note, recordedAt: at } = results
  const rows = await db
    .select({
      ...{ position, kind, note, at, by: people.name, stage: drawnCords.stage },
      pick: heldPick,
    })
    .from(results)
    .innerJoin(drawnCords, and(eq(drawnCords.lotId, results.lotId), eq(drawnCords.position, position)))
    .innerJoin(people, eq(people.id, results.recordedBy))
    .where(and(eq(results.lotId, lotId), sql`${results.undecided}`))
    .orderBy(asc(position))
  return rows.map((row) => ({ ...row, note: row.note ?? '', stage: row.stage ?? 1 }))
}

const reserve = alias(drawnCords, 'reserve')

async function rulingsOf(db: Db | Tx, lotId: number): Promise<RulingFacts[]> {
  const rows = await db
    .select({
      ruled: rulings,
      ...{ kind: results.kind, note: results.note, by: people.name, standIn: reserve.position },
    })
    .from(rulings)
    .innerJoin(results, and(eq(results.lotId, lotId), eq(results.position, rulings.position)))
    .innerJoin(people, eq(people.id, rulings.ruledBy))
    .leftJoin(reserve, and(eq(reserve.lotId, lotId), eq(reserve.standsInFor, rulings.position)))
    .where(eq(rulings.lotId, lotId))
    .orderBy(asc(rulings.position))
  return rows.map(({ ruled, kind, note, by, standIn }) => {
    const { position, ruling, reason, recorded, found, undecided, ruledAt: at } = ruled
    const known = { recorded, found, undecided }
    return { position, kind, note: note ?? '', ruling, reason, known, standIn: standIn ?? undefined, by, at }
  })
}

async function recountsOf(db: Db | Tx, lotId: number): Promise<RecountFacts[]> {
  const { position, size, reason, countedAt: at } = recounts
  const rows = await db
    .select({ position, size, reason, at, by: people.name, standIn: reserve.position })
    .from(recounts)
    .innerJoin(people, eq(people.id, recounts.countedBy))
    .leftJoin(reserve, and(eq(reserve.lotId, lotId), eq(reserve.standsInFor, position)))
    .where(eq(recounts.lotId, lotId))
    .orderBy(asc(at), asc(position))
  return rows.map((row) => ({ ...row, standIn: row.standIn ?? undefined }))
}

/** A reserve is of the stage of the cord that it replaces. */
async function replacedByStage(db: Db | Tx, lotId: number): Promise<number[]> {
  const rows = await db
    .select({ stage: drawnCords.stage, count: sql<number>`count(*)::int` })
    .from(drawnCords)
    .innerJoin(results, and(eq(results.lotId, lotId), eq(results.position, drawnCords.standsInFor)))
    .where(
      and(eq(drawnCords.lotId, lotId), isNotNull(drawnCords.standsInFor), ne(sql`${results.kind}::text`, 'no-cord')),
    )
    .groupBy(drawnCords.stage)
  const byStage: number[] = []
  for (const { stage, count } of rows) byStage[(stage ?? 1) - 1] = count
  return Array.from(byStage, (count) => count ?? 0)
}
