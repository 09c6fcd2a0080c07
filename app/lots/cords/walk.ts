// The drawn cords in walking order: carton after carton, place after place.
import { and, asc, eq, gt, isNull, lte, or, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots, plans } from '../../../db/schema/lots.ts'
import { people } from '../../../db/schema/people.ts'
import { drawnCords, results } from '../../../db/schema/results.ts'
import type { CordState, JudgingTerms } from '../../items/judge.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Entry } from './entry.ts'
import { type Place, placeOf } from './place.ts'
import { entryIn, reasonsOf } from './row.ts'

/** An entry that stands, or stood before a correction. */
export type EntryFacts = {
  /** 1 for the first entry, one more for each correction */
  entry: number
  said: Entry
  state: CordState | 'not-tested'
  nonconforming: boolean
  reasons: string[]
  recordedBy: string
  recordedAt: Date
}

export type EarlierEntry = EntryFacts & { correctedBy: string; correctedAt: Date; correctionReason: string }

export type CordFacts = Place & {
  position: number
  purpose: 'sample' | 'stand-in' | 'rest'
  /** 1, 2, 3 … in the order drawn; undefined for the rest of a screened lot */
  pick: number | undefined
  /** the cord that this stand-in replaces */
  standsInFor: number | undefined
  /** the stand-in that replaced this cord */
  replacedBy: number | undefined
  result: EntryFacts | undefined
}

/** One page of a long list: the cords after this position, so many at most. */
export type Leaf = { after: number; atMost: number }

const whole: Leaf = { after: 0, atMost: 1_000_000 }

/** Drawn cords with their results, in walking order. A lot that is not drawn has none. */
export async function drawnInOrder(db: Db, lotId: number, leaf: Leaf = whole): Promise<CordFacts[]> {
  return cords(db, lotId, { ...leaf, nonconformingOnly: false })
}

/** Cords found nonconforming, in walking order: those to be taken out, or sent back. Missing ones are not among them. */
export async function nonconformingCords(db: Db, lotId: number, leaf: Leaf = whole): Promise<CordFacts[]> {
  return cords(db, lotId, { ...leaf, nonconformingOnly: true })
}

/** The next drawn cord without a result after a position, from the front again when the end is reached; undefined when none is left. */
export async function nextToTest(
  db: Db,
  lotId: number,
  after = 0,
): Promise<({ position: number } & Place) | undefined> {
  const { cordsInCarton } = await frameOf(db, lotId)
  for (const span of [gt(drawnCords.position, after), lte(drawnCords.position, after)]) {
    const [next] = await db
      .select({ position: drawnCords.position })
      .from(drawnCords)
      .leftJoin(results, sameCord)
      .where(and(eq(drawnCords.lotId, lotId), span, isNull(results.position)))
      .orderBy(asc(drawnCords.position))
      .limit(1)
    if (next) return { position: next.position, ...placeOf(next.position, cordsInCarton) }
  }
  return undefined
}

const sameCord = and(eq(results.lotId, drawnCords.lotId), eq(results.position, drawnCords.position))

/** What the lot's cords share: how they are packed, and the terms that judge them. */
export async function frameOf(
  db: Db,
  lotId: number,
): Promise<{ cordsInCarton: number; terms: JudgingTerms | undefined }> {
  const [lot] = await db
    .select({ cordsInCarton: lots.cordsInCarton, plan: plans })
    .from(lots)
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .where(eq(lots.id, lotId))
  if (!lot) throw new Refusal('missing', `There is no lot ${lotId}`)
  return { cordsInCarton: lot.cordsInCarton, terms: lot.plan ?? undefined }
}

/**
 * A lookup for each cord, not a join: right after a large draw the database has no statistics of it yet, and the join it
 * then chooses compares every cord with every other (100,000 cords: 20 s instead of 0.1 s).
 */
const replacedBy = sql<number | null>`(select stand_in.position from ${drawnCords} stand_in
  where stand_in.lot_id = ${drawnCords.lotId} and stand_in.stands_in_for = ${drawnCords.position})`

async function cords(db: Db, lotId: number, wanted: Leaf & { nonconformingOnly: boolean }): Promise<CordFacts[]> {
  const { cordsInCarton, terms } = await frameOf(db, lotId)
  if (!terms) return []
  const found = and(eq(results.nonconforming, true), or(eq(results.kind, 'tested'), eq(results.kind, 'untestable')))
  const rows = await db
    .select({ cord: drawnCords, result: results, recordedBy: people.name, replacedBy })
    .from(drawnCords)
    .leftJoin(results, sameCord)
    .leftJoin(people, eq(people.id, results.recordedBy))
    .where(
      and(
        eq(drawnCords.lotId, lotId),
        gt(drawnCords.position, wanted.after),
        wanted.nonconformingOnly ? found : sql`true`,
      ),
    )
    .orderBy(asc(drawnCords.position))
    .limit(wanted.atMost)
  return rows.map(({ cord, result, recordedBy, replacedBy }) => ({
    position: cord.position,
    ...placeOf(cord.position, cordsInCarton),
    purpose: cord.purpose,
    pick: cord.pick ?? undefined,
    standsInFor: cord.standsInFor ?? undefined,
    replacedBy: replacedBy ?? undefined,
    result: result ? entryFacts(result, terms, recordedBy ?? '') : undefined,
  }))
}

type Row = Omit<typeof results.$inferSelect, 'counts'>

/** An entry as pages show it, whether it stands or was corrected since. */
export function entryFacts(row: Row, terms: JudgingTerms, recordedBy: string): EntryFacts {
  const { entry, state, nonconforming, recordedAt } = row
  return { entry, said: entryIn(row), state, nonconforming, reasons: reasonsOf(row, terms), recordedBy, recordedAt }
}
