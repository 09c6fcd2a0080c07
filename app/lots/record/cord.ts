// One drawn cord: its place, the entry that stands, and every entry before it with the reason for its correction.
import { and, asc, desc, eq } from 'drizzle-orm'
import { alias } from 'drizzle-orm/pg-core'
import { type Db, readTogether, type Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { earlierResults, results } from '../../../db/schema/results.ts'
import { allOf } from '../../kit/all-of.ts'
import { Refusal } from '../../kit/refusal.ts'
import { type CordFrame, cordFrameIn, cordFrameOf, type LotOfCords } from './cord-frame.ts'
import { type EarlierEntry, entryFacts } from './entry-facts.ts'
import { type LotRecord, lotRecordOf } from './lot.ts'
import { type CordFacts, cordIn, cordRowAt, drawnInOrder, type PickListPart } from './pick-list.ts'

/** earlier: the entries that corrections replaced, oldest first. */
export type CordRecord = CordFacts & { earlier: EarlierEntry[] }

/** Throws Refusal (missing) where the cord was not drawn. */
export async function cordOf(db: Db | Tx, lot: LotOfCords, position: number): Promise<CordRecord> {
  const lotId = typeof lot === 'number' ? lot : lot.id
  return cordRecordIn(await allOf([cordFrameOf(db, lot), ...rowsOf(db, lotId, position)]), position)
}

/** A lot and one of its drawn cords, in one trip. Throws Refusal (missing) where either is not there. */
export function lotAndCordOf(db: Db, lotId: number, position: number): Promise<{ lot: LotRecord; cord: CordRecord }> {
  return readTogether(db, async (tx) => {
    const [lot, ...rows] = await allOf([lotRecordOf(tx, lotId), ...rowsOf(tx, lotId, position)])
    return { lot, cord: cordRecordIn([cordFrameIn(lot), ...rows], position) }
  })
}

/** A lot and a page of its drawn cords, in walking order. Throws Refusal (missing) where it is not there, or not drawn. */
export function lotAndPickListOf(
  db: Db,
  lotId: number,
  page: PickListPart,
): Promise<{ lot: LotRecord; cords: CordFacts[] }> {
  return readTogether(db, async (tx) => {
    const lot = await lotRecordOf(tx, lotId)
    if (!lot.draw) throw new Refusal('missing', 'lot/not-drawn', { lot: lot.id })
    return { lot, cords: await drawnInOrder(tx, cordFrameIn(lot), page) }
  })
}

function rowsOf(db: Db | Tx, lotId: number, position: number) {
  return [cordRowAt(db, lotId, position), earlierOf(db, lotId, position)] as const
}

type CordRows = readonly [CordFrame, Awaited<ReturnType<typeof cordRowAt>>, Awaited<ReturnType<typeof earlierOf>>]

function cordRecordIn([frame, row, rows]: CordRows, position: number): CordRecord {
  const { terms } = frame
  const cord = cordIn(row, frame)
  if (!terms || !cord) throw new Refusal('missing', 'cord/unknown', { lot: frame.id, position })
  const earlier = rows.map(({ former, recordedBy, correctedBy }) => ({
    ...entryFacts(former, terms, recordedBy),
    correctedBy,
    correctedAt: former.correctedAt,
    correctionReason: former.correctionReason,
  }))
  return { ...cord, earlier }
}

async function earlierOf(db: Db | Tx, lotId: number, position: number) {
  const corrector = alias(people, 'corrector')
  return db
    .select({ former: earlierResults, recordedBy: people.name, correctedBy: corrector.name })
    .from(earlierResults)
    .innerJoin(people, eq(people.id, earlierResults.recordedBy))
    .innerJoin(corrector, eq(corrector.id, earlierResults.correctedBy))
    .where(and(eq(earlierResults.lotId, lotId), eq(earlierResults.position, position)))
    .orderBy(asc(earlierResults.entry))
}

/** Marks that the inspector typed last in this lot, to be taken over for the next cord. */
export type Marks = { carton: string; spool: string; testerSerial: string }

export async function lastMarks(db: Db | Tx, lotId: number, personId: number): Promise<Marks> {
  const [last] = await db
    .select({ carton: results.carton, spool: results.spool, testerSerial: results.testerSerial })
    .from(results)
    .where(and(eq(results.lotId, lotId), eq(results.recordedBy, personId), eq(results.kind, 'tested')))
    .orderBy(desc(results.recordedAt))
    .limit(1)
  return { carton: last?.carton ?? '', spool: last?.spool ?? '', testerSerial: last?.testerSerial ?? '' }
}
