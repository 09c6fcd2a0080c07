// One drawn cord: its place, the entry that stands, and every entry before it with the reason for its correction.
import { and, asc, desc, eq } from 'drizzle-orm'
import { alias } from 'drizzle-orm/pg-core'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { earlierResults, results } from '../../../db/schema/results.ts'
import { Refusal } from '../../kit/refusal.ts'
import { type CordFacts, cordFrameOf, drawnAt, type EarlierEntry, entryFacts } from './pick-list.ts'

/** earlier: the entries that corrections replaced, oldest first. */
export type CordStory = CordFacts & { earlier: EarlierEntry[] }

/** Throws Refusal (missing) where the cord was not drawn. */
export async function cordOf(db: Db, lotId: number, position: number): Promise<CordStory> {
  const cord = await drawnAt(db, lotId, position)
  const { terms } = await cordFrameOf(db, lotId)
  if (!terms || !cord) throw new Refusal('missing', `Cord ${position} of lot ${lotId} was not drawn`)
  const corrector = alias(people, 'corrector')
  const rows = await db
    .select({ former: earlierResults, recordedBy: people.name, correctedBy: corrector.name })
    .from(earlierResults)
    .innerJoin(people, eq(people.id, earlierResults.recordedBy))
    .innerJoin(corrector, eq(corrector.id, earlierResults.correctedBy))
    .where(and(eq(earlierResults.lotId, lotId), eq(earlierResults.position, position)))
    .orderBy(asc(earlierResults.entry))
  const earlier = rows.map(({ former, recordedBy, correctedBy }) => ({
    ...entryFacts(former, terms, recordedBy),
    correctedBy,
    correctedAt: former.correctedAt,
    correctionReason: former.correctionReason,
  }))
  return { ...cord, earlier }
}

/** Marks that the inspector typed last in this lot, to be taken over for the next cord. */
export type Marks = { carton: string; spool: string; testerSerial: string }

export async function lastMarks(db: Db, lotId: number, personId: number): Promise<Marks> {
  const [last] = await db
    .select({ carton: results.carton, spool: results.spool, testerSerial: results.testerSerial })
    .from(results)
    .where(and(eq(results.lotId, lotId), eq(results.recordedBy, personId), eq(results.kind, 'tested')))
    .orderBy(desc(results.recordedAt))
    .limit(1)
  return { carton: last?.carton ?? '', spool: last?.spool ?? '', testerSerial: last?.testerSerial ?? '' }
}
