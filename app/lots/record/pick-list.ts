// The drawn cords in walking order: stage after stage of the plan, carton after carton, place after place.
import { and, asc, eq, gt, gte, isNotNull, lte, ne, type SQL, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { people } from '../../../db/schema/people.ts'
import { drawnCords, results } from '../../../db/schema/results.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { CordPurpose, ResultState } from '../../terms/cord.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import type { Entry } from '../rules/entry.ts'
import { type CordPlace, placeOf } from '../rules/place.ts'
import { entryIn, reasonsOf } from './row.ts'

/** An entry that stands, or stood before a correction. */
export type EntryFacts = {
  /** 1 for the first entry, one more for each correction */
  entry: number
  reading: Entry
  state: ResultState
  nonconforming: boolean
  reasons: string[]
  recordedBy: string
  recordedAt: Date
}

export type EarlierEntry = EntryFacts & { correctedBy: string; correctedAt: Date; correctionReason: string }

export type CordFacts = CordPlace & {
  position: number
  purpose: CordPurpose
  /** 1, 2, 3 … in the order drawn; undefined for the rest of a screened lot */
  pick: number | undefined
  /** of the plan's stages the one that it belongs to, from 1; undefined for the rest */
  stage: number | undefined
  /** the cord that this stand-in replaces */
  standsInFor: number | undefined
  /** the stand-in that replaced this cord */
  replacedBy: number | undefined
  result: EntryFacts | undefined
}

/** One page of a long list: the cords after this position, so many at most. */
export type PickListPage = { after: number; atMost: number }

const whole: PickListPage = { after: 0, atMost: 1_000_000 }

/** Drawn cords with their results, in walking order. A lot that is not drawn has none. */
export async function drawnInOrder(
  db: Db,
  lotId: number,
  { after, atMost }: PickListPage = whole,
): Promise<CordFacts[]> {
  const { byStage } = await cordFrameOf(db, lotId)
  if (!byStage) return cords(db, lotId, { which: gt(drawnCords.position, after), atMost })
  const passed = sql`(select d.stage, d.position from ${drawnCords} d where d.lot_id = ${lotId} and d.position = ${after})`
  const which = after === 0 ? undefined : sql`(${drawnCords.stage}, ${drawnCords.position}) > ${passed}`
  return cords(db, lotId, { which, atMost, byStage: true })
}

/** One drawn cord; undefined where it was not drawn. */
export async function drawnAt(db: Db, lotId: number, position: number): Promise<CordFacts | undefined> {
  const [cord] = await cords(db, lotId, { which: eq(drawnCords.position, position), atMost: 1 })
  return cord
}

/** Cords found nonconforming, carton after carton: those to be taken out, or sent back. Missing ones are not among them. */
export async function nonconformingCords(
  db: Db,
  lotId: number,
  { after, atMost }: PickListPage = whole,
): Promise<CordFacts[]> {
  const found = await db
    .select({ position: results.position })
    .from(results)
    .where(
      and(
        eq(results.lotId, lotId),
        sql`${results.nonconforming}`, // as in the index of just these
        ne(results.kind, 'missing'),
        gt(results.position, after),
      ),
    )
    .orderBy(asc(results.position))
    .limit(atMost)
  const positions = `{${found.map(({ position }) => position).join(',')}}`
  return cords(db, lotId, { which: sql`${drawnCords.position} = any (${positions}::int[])`, atMost })
}

/**
 * The next drawn cord without a result after a position, from the front again when the end is reached; undefined when
 * none is left. With a stage named only among its cords.
 */
export async function nextToTest(
  db: Db,
  lotId: number,
  after = 0,
  stage?: number,
): Promise<({ position: number } & CordPlace) | undefined> {
  const { cordsInCarton } = await cordFrameOf(db, lotId)
  const ofStage = stage === undefined ? undefined : eq(drawnCords.stage, stage)
  for (const span of [gt(drawnCords.position, after), lte(drawnCords.position, after)]) {
    const [next] = await db
      .select({ position: drawnCords.position })
      .from(drawnCords)
      .where(and(eq(drawnCords.lotId, lotId), ofStage, span, unrecorded))
      .orderBy(asc(drawnCords.position))
      .limit(1)
    if (next) return { position: next.position, ...placeOf(next.position, cordsInCarton) }
  }
  return undefined
}

/** "offset 0" keeps it a lookup for each cord, for the reason that stands at `cords`. */
const unrecorded = sql`not exists (select from ${results} r where r.lot_id = ${drawnCords.lotId} and r.position = ${drawnCords.position} offset 0)`

type CordFrame = {
  cordsInCarton: number
  terms: ConformityTerms | undefined
  /** one walks stage after stage: the plan has several, and the rest is not tested too */
  byStage: boolean
}

/** What the lot's cords share: how they are packed, the terms that judge them, and how one walks from cord to cord. */
export async function cordFrameOf(db: Db, lotId: number): Promise<CordFrame> {
  const [lot] = await db
    .select({ cordsInCarton: lots.cordsInCarton, plan: plans, outcome: decisions.outcome })
    .from(lots)
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .leftJoin(decisions, and(eq(decisions.lotId, lots.id), eq(decisions.after, 'sample')))
    .where(eq(lots.id, lotId))
  if (!lot) throw new Refusal('missing', `There is no lot ${lotId}`)
  const { cordsInCarton, plan, outcome } = lot
  return { cordsInCarton, terms: plan ?? undefined, byStage: outcome !== 'screened' && (plan?.stages.length ?? 1) > 1 }
}

type Wanted = { which: SQL | undefined; atMost: number; byStage?: boolean }

/**
 * Cords, their results and their stand-ins are read one after the other and put together here: right after a large draw the
 * database has no statistics of it yet, and the join that it then chooses goes through the lot once for each cord.
 */
async function cords(db: Db, lotId: number, { which, atMost, byStage }: Wanted): Promise<CordFacts[]> {
  const { cordsInCarton, terms } = await cordFrameOf(db, lotId)
  if (!terms) return []
  const drawn = await db
    .select()
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), which))
    .orderBy(...(byStage ? [asc(drawnCords.stage)] : []), asc(drawnCords.position))
    .limit(atMost)
  const found = await resultsOf(
    db,
    lotId,
    drawn.map(({ position }) => position),
  )
  const standIns = await standInsOf(db, lotId)
  return drawn.map((cord) => ({
    position: cord.position,
    ...placeOf(cord.position, cordsInCarton),
    purpose: cord.purpose,
    pick: cord.pick ?? undefined,
    stage: cord.stage ?? undefined,
    standsInFor: cord.standsInFor ?? undefined,
    replacedBy: standIns.get(cord.position),
    result: shown(found.get(cord.position), terms),
  }))
}

/** By the cord that each replaces. They are few, and read at once: a lookup for each cord may go through the whole lot. */
async function standInsOf(db: Db, lotId: number): Promise<Map<number, number>> {
  const found = await db
    .select({ replaced: drawnCords.standsInFor, position: drawnCords.position })
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), isNotNull(drawnCords.standsInFor)))
  return new Map(found.map(({ replaced, position }) => [replaced ?? 0, position]))
}

/** Results of these cords by position; of very many, all between the first and the last. */
async function resultsOf(db: Db, lotId: number, positions: number[]) {
  const [first, last] = positions.reduce(([least, most], at) => [Math.min(least, at), Math.max(most, at)], [largest, 0])
  const these =
    positions.length > 2000 ? undefined : sql`${results.position} = any (${`{${positions.join(',')}}`}::int[])`
  const rows = await db
    .select({ result: results, recordedBy: people.name })
    .from(results)
    .leftJoin(people, eq(people.id, results.recordedBy))
    .where(and(eq(results.lotId, lotId), gte(results.position, first), lte(results.position, last), these))
  return new Map(rows.map((row) => [row.result.position, row]))
}

const largest = 1_000_000

function shown(found: { result: Row; recordedBy: string | null } | undefined, terms: ConformityTerms) {
  return found && entryFacts(found.result, terms, found.recordedBy ?? '')
}

type Row = Omit<typeof results.$inferSelect, 'counts'>

/** An entry as pages show it, whether it stands or was corrected since. */
export function entryFacts(row: Row, terms: ConformityTerms, recordedBy: string): EntryFacts {
  const { entry, state, nonconforming, recordedAt } = row
  return { entry, reading: entryIn(row), state, nonconforming, reasons: reasonsOf(row, terms), recordedBy, recordedAt }
}
