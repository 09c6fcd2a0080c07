// A file of results, recorded whole or not at all.
import { eq, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { lots, plans } from '../../../db/schema/lots.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import { once } from '../../people/once.ts'
import { requireRole } from '../../people/person.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { insertRows, inTheWay } from '../record/file-rows.ts'
import { type LockedLot, lockLot, requireState } from '../record/lock.ts'
import { outOfStage } from '../record/open-stage.ts'
import { completeIfScreened, frozenPlanOf } from '../record/testing.ts'
import { type BadRows, joined, noBadRows } from '../rules/file/bad-rows.ts'
import type { FileTerms } from '../rules/file/sheet.ts'
import type { ResultsFile } from '../rules/results-file.ts'

export type Imported = { kind: 'recorded'; count: number } | { kind: 'refused'; bad: BadRows }

/**
 * Whether this person may send a file of this lot now, asked before any of it is read; returns what reading needs. Who sent
 * one before may send it again after the lot went on, as its answer may have been lost.
 */
export async function openToFile(db: Db, inspector: Person, lotId: number): Promise<FileTerms> {
  requireRole(inspector, 'record-results')
  const [found] = await db
    .select({ lot: lots, plan: plans, sentBefore: sentBy(inspector, lotId) })
    .from(lots)
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .where(eq(lots.id, lotId))
  if (!found) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  if (!found.plan || !found.sentBefore) requireTesting(found.lot)
  if (!found.plan) throw new Error(`lot ${lotId} is being tested without a plan`)
  return { size: found.plan.lotSize, terms: found.plan }
}

/**
 * Records every row of a file, or none: then the rows in the way are named with line and reason, and counted. They are
 * looked for before the lot is locked, and again only where it changed meanwhile. The same file under the same key is
 * answered with the count of the first time; a refused one leaves the key free.
 */
export async function recordFile(
  db: Db,
  inspector: Person,
  lotId: number,
  { key, file }: { key: string; file: ResultsFile },
): Promise<Imported> {
  requireRole(inspector, 'record-results')
  const { count, sha256 } = file
  const sent = { key, person: inspector, act: 'cords.imported' as const, subject: `lot/${lotId}`, input: { sha256 } }
  const seen = await lookedAt(db, lotId, file)
  return db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'record-results')
    const lot = await lockLot(tx, lotId)
    let bad = noBadRows()
    const { made } = await once(tx, sent, async () => {
      requireTesting(lot)
      bad = lot.version === seen?.version ? seen.bad : await badRowsOf(tx, lot, file)
      if (bad.inAll > 0) return undefined

      await insertRows(tx, lotId, inspector.id, file)
      await record(tx, inspector, sent.act, sent.subject, { count, sha256 })
      await completeIfScreened(tx, inspector, lot)
      return count
    })
    return made === undefined ? { kind: 'refused', bad } : { kind: 'recorded', count: made }
  })
}

function requireTesting(lot: LockedLot): void {
  requireState(lot, 'record')
}

function sentBy(inspector: Person, lotId: number) {
  return sql<boolean>`exists (select from audit
    where subject = ${`lot/${lotId}`} and action = 'cords.imported' and person_id = ${inspector.id})`
}

/** What is in the way, and the version of the lot at which it was. */
async function lookedAt(db: Db, lotId: number, file: ResultsFile) {
  const [lot] = await db.select().from(lots).where(eq(lots.id, lotId))
  return lot && { version: lot.version, bad: await badRowsOf(db, lot, file) }
}

async function badRowsOf(db: Db | Tx, lot: LockedLot, file: ResultsFile): Promise<BadRows> {
  const bad = joined(file.bad, await inTheWay(db, lot.id, file))
  return bad.inAll > 0 ? bad : outOfStage(db, lot, await frozenPlanOf(db, lot.id), file)
}
