// The drawn cords in walking order: stage after stage of the plan, the first fetch before the others, carton after carton, place after place.

import { and, asc, eq, gt, gte, isNotNull, lte, type SQL, sql } from 'drizzle-orm'
import { alias, unionAll } from 'drizzle-orm/pg-core'
import type { Db, Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { drawnCords, results } from '../../../db/schema/results.ts'
import { allOf } from '../../kit/all-of.ts'
import { largestLot } from '../../kit/limits.ts'
import type { CordPurpose } from '../../terms/cord.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import { type CordPlace, placeOf } from '../rules/place.ts'
import { type CordFrame, cordFrameOf, type LotOfCords } from './cord-frame.ts'
import { type EntryFacts, type EntryRow, entryFacts } from './entry-facts.ts'

export type CordFacts = CordPlace & {
  position: number
  purpose: CordPurpose
  /** 1, 2, 3 … in the order drawn; undefined for the rest of a screened lot */
  pick: number | undefined
  /** of the plan's stages the one that it belongs to, from 1; undefined for the rest */
  stage: number | undefined
  /** it belongs to the first picks that are walked before the others */
  firstFetch: boolean
  /** the cord that this stand-in replaces */
  standsInFor: number | undefined
  /** the stand-in that replaced this cord */
  replacedBy: number | undefined
  result: EntryFacts | undefined
}

/** One page of a long list: the cords after this position, so many at most. */
export type PickListPart = { after: number; atMost: number }

const whole: PickListPart = { after: 0, atMost: largestLot }

/** Drawn cords with their results, in walking order. A lot that is not drawn has none. */
export async function drawnInOrder(
  db: Db | Tx,
  lot: LotOfCords,
  { after, atMost }: PickListPart = whole,
): Promise<CordFacts[]> {
  const frame = await cordFrameOf(db, lot)
  const { byStage, firstPicks } = frame
  if (!byStage && firstPicks === undefined)
    return cords(db, frame, { which: gt(drawnCords.position, after), atMost, by: [drawnCords.position] })
  const by = [
    ...(byStage ? [sql`${drawnCords.stage}`] : []),
    ...(firstPicks === undefined ? [] : [sql`not ${within(firstPicks)}`]),
    sql`${drawnCords.position}`,
  ]
  const walked = sql.join(by, sql`, `)
  const passed = sql`(select ${walked} from ${drawnCords} where ${drawnCords.lotId} = ${frame.id} and ${drawnCords.position} = ${after})`
  return cords(db, frame, { which: after === 0 ? undefined : sql`(${walked}) > ${passed}`, atMost, by })
}

/** Whether a cord holds the place of one of the first picks. */
function within(firstPicks: number): SQL<boolean> {
  return sql`coalesce(${drawnCords.takesPick}, ${drawnCords.pick}) <= ${firstPicks}::int`
}

/** One drawn cord; undefined where it was not drawn. */
export async function drawnAt(db: Db | Tx, lot: LotOfCords, position: number): Promise<CordFacts | undefined> {
  const lotId = typeof lot === 'number' ? lot : lot.id
  const [frame, row] = await allOf([cordFrameOf(db, lot), cordRowAt(db, lotId, position)])
  return cordIn(row, frame)
}

/** The rows of one drawn cord, to be shown by `cordIn` once its lot is known. */
export async function cordRowAt(db: Db | Tx, lotId: number, position: number) {
  const standIn = alias(drawnCords, 'stand_in')
  const [found] = await db
    .select({ drawn: drawnCords, result: results, recordedBy: people.name, replacedBy: standIn.position })
    .from(drawnCords)
    .leftJoin(results, and(eq(results.lotId, drawnCords.lotId), eq(results.position, drawnCords.position)))
    .leftJoin(people, eq(people.id, results.recordedBy))
    .leftJoin(standIn, and(eq(standIn.lotId, drawnCords.lotId), eq(standIn.standsInFor, drawnCords.position)))
    .where(and(eq(drawnCords.lotId, lotId), eq(drawnCords.position, position)))
  return found
}

export function cordIn(row: Awaited<ReturnType<typeof cordRowAt>>, frame: CordFrame): CordFacts | undefined {
  if (!row || !frame.terms) return undefined
  const { drawn, result, recordedBy, replacedBy } = row
  return cordFacts(drawn, frame, {
    replacedBy: replacedBy ?? undefined,
    result: result ? entryFacts(result, frame.terms, recordedBy ?? '') : undefined,
  })
}

/** Cords found nonconforming, carton after carton: those to be taken out, or sent back. Missing ones are not among them. */
export async function nonconformingCords(
  db: Db | Tx,
  lot: LotOfCords,
  { after, atMost }: PickListPart = whole,
): Promise<CordFacts[]> {
  const frame = await cordFrameOf(db, lot)
  const { terms } = frame
  if (!terms) return []
  const [found, standIns] = await allOf([failingOf(db, frame.id, { after, atMost }), standInsOf(db, frame.id)])
  return found.map(({ failing, own, people }) =>
    cordFacts(own, frame, {
      replacedBy: standIns.get(own.position),
      result: entryFacts(failing, terms, people?.name ?? ''),
    }),
  )
}

/** Entries that do not conform, each with its drawn cord and who recorded it. */
function failingOf(db: Db | Tx, lotId: number, { after, atMost }: PickListPart) {
  const failing = db
    .select()
    .from(results)
    .where(
      and(
        eq(results.lotId, lotId),
        sql`${results.nonconforming}`, // as in the index of just these
        sql`${results.kind}::text not in ('missing', 'gone', 'no-cord')`,
        gt(results.position, after),
      ),
    )
    .orderBy(asc(results.position))
    .limit(atMost)
    .as('failing')
  // "limit 1" keeps it a lookup for each of them, for the reason that stands at \`cords\`
  const own = db
    .select()
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, failing.lotId), eq(drawnCords.position, failing.position)))
    .limit(1)
    .as('own')
  return db
    .select()
    .from(failing)
    .crossJoinLateral(own)
    .leftJoin(people, eq(people.id, failing.recordedBy))
    .orderBy(asc(failing.position))
    .execute()
}

/**
 * The next drawn cord without a result after a position, from the front again when the end is reached; undefined when
 * none is left. With a stage named only among its cords; with the first fetch named only among the picks that it has.
 */
export async function nextToTest(
  db: Db | Tx,
  lot: LotOfCords,
  after = 0,
  { stage, firstPicks }: { stage?: number | undefined; firstPicks?: number | undefined } = {},
): Promise<CordFacts | undefined> {
  const frame = await cordFrameOf(db, lot)
  const ofStage = and(
    stage === undefined ? undefined : eq(drawnCords.stage, stage),
    firstPicks === undefined ? undefined : within(firstPicks),
  )
  const [ahead, behind] = [gt(drawnCords.position, after), lte(drawnCords.position, after)].map((span) =>
    db
      .select()
      .from(drawnCords)
      .where(and(eq(drawnCords.lotId, frame.id), ofStage, span, unrecorded))
      .orderBy(asc(drawnCords.position))
      .limit(1),
  )
  if (!ahead || !behind) return undefined
  const [next] = await unionAll(ahead, behind).limit(1) // in this order: the second is begun where the first finds none
  return next && cordFacts(next, frame, { replacedBy: undefined, result: undefined })
}

/** "offset 0" keeps it a lookup for each cord, for the reason that stands at `cords`. */
const unrecorded = sql`not exists (select from ${results} r where r.lot_id = ${drawnCords.lotId} and r.position = ${drawnCords.position} offset 0)`

type Wanted = { which: SQL | undefined; atMost: number; by: (SQL | typeof drawnCords.position)[] }

/**
 * Cords, their results and their stand-ins are read one after the other and put together here: right after a large draw the
 * database has no statistics of it yet, and the join that it then chooses goes through the lot once for each cord.
 */
async function cords(db: Db | Tx, frame: CordFrame, { which, atMost, by }: Wanted): Promise<CordFacts[]> {
  const { id: lotId, terms } = frame
  if (!terms) return []
  const drawn = await db
    .select()
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), which))
    .orderBy(...by.map((each) => asc(each)))
    .limit(atMost)
  const positions = drawn.map(({ position }) => position)
  const [found, standIns] = await allOf([resultsOf(db, lotId, positions), standInsOf(db, lotId)])
  return drawn.map((cord) =>
    cordFacts(cord, frame, {
      replacedBy: standIns.get(cord.position),
      result: shown(found.get(cord.position), terms),
    }),
  )
}

function cordFacts(
  cord: typeof drawnCords.$inferSelect,
  { cordsInCarton, firstPicks = 0 }: CordFrame,
  known: Pick<CordFacts, 'replacedBy' | 'result'>,
): CordFacts {
  return {
    position: cord.position,
    ...placeOf(cord.position, cordsInCarton),
    purpose: cord.purpose,
    pick: cord.pick ?? undefined,
    stage: cord.stage ?? undefined,
    firstFetch: (cord.takesPick ?? cord.pick ?? Number.POSITIVE_INFINITY) <= firstPicks,
    standsInFor: cord.standsInFor ?? undefined,
    ...known,
  }
}

/** By the cord that each replaces. They are few, and read at once: a lookup for each cord may go through the whole lot. */
async function standInsOf(db: Db | Tx, lotId: number): Promise<Map<number, number>> {
  const found = await db
    .select({ replaced: drawnCords.standsInFor, position: drawnCords.position })
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), isNotNull(drawnCords.standsInFor)))
  return new Map(found.map(({ replaced, position }) => [replaced ?? 0, position]))
}

/** Results of these cords by position; of very many, all between the first and the last. */
async function resultsOf(db: Db | Tx, lotId: number, positions: number[]) {
  const [first, last] = positions.reduce(
    ([least, most], at) => [Math.min(least, at), Math.max(most, at)],
    [largestLot, 0],
  )
  const these =
    positions.length > 2000 ? undefined : sql`${results.position} = any (${`{${positions.join(',')}}`}::int[])`
  const rows = await db
    .select({ result: results, recordedBy: people.name })
    .from(results)
    .leftJoin(people, eq(people.id, results.recordedBy))
    .where(and(eq(results.lotId, lotId), gte(results.position, first), lte(results.position, last), these))
  return new Map(rows.map((row) => [row.result.position, row]))
}

function shown(found: { result: EntryRow; recordedBy: string | null } | undefined, terms: ConformityTerms) {
  return found && entryFacts(found.result, terms, found.recordedBy ?? '')
}
