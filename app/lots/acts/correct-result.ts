// The inspector's correction of an entry: the former one stays readable, with the reason.

import { and, eq, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { rulings } from '../../../db/schema/cords.ts'
import { earlierResults, results } from '../../../db/schema/results.ts'
import { record } from '../../audit/record.ts'
import { allOf } from '../../kit/all-of.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { onceInOneGo } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { lockLotUnderTest, requireState } from '../record/lock.ts'
import { correctedInput, enteredUnder } from '../record/sent.ts'
import { completeIfScreened, cordUnderTest, keptAs, standingResult } from '../record/testing.ts'
import type { Entry } from '../rules/entry.ts'
import { type AssessedEntry, assessedBy, checkedEntry } from '../rules/reading.ts'

/** entryNumber: the entry that the inspector saw, so that a correction made meanwhile is not undone unseen. */
type Correction = { key: string; position: number; entryNumber: number; reason: string }

/** Replaces the entry of a cord and keeps the one before. Open until the lot's last decision. */
export async function correctResult(
  db: Db,
  inspector: Person,
  lotId: number,
  { key, position, entryNumber, reason, ...said }: Entry & Correction,
): Promise<AssessedEntry> {
  const entry = checkedEntry(said)
  const correctionReason = checkedReason(reason)
  const subject = `lot/${lotId}/cord/${position}`
  const transaction = (work: (tx: Tx) => Promise<AssessedEntry>) => db.transaction(work)
  return onceInOneGo(transaction, async (tx, once) => {
    const [, lot, { plan }, standing] = await allOf([
      requireStanding(tx, inspector, 'correct-result'),
      lockLotUnderTest(tx, lotId),
      cordUnderTest(tx, lotId, position),
      standingResult(tx, lotId, position),
    ])
    const judged = assessedBy(entry, plan)
    const kept = await enteredUnder(tx, standing, key)
    const input = correctedInput(entry, { entryNumber, reason: correctionReason })
    await once(tx, { key, person: inspector, act: 'cord.corrected' as const, subject, input, kept }, async () => {
      requireState(lot, 'amend')
      const former = await correctable(tx, standing?.result, { lotId, position, entryNumber })
      const row = { formKey: key, entry: former.entry + 1, recordedBy: inspector.id }
      await allOf([
        keepFormer(tx, former, inspector, correctionReason),
        tx
          .update(results)
          .set({ ...keptAs(entry, judged, lot, plan), ...row, recordedAt: sql`clock_timestamp()` })
          .where(and(eq(results.lotId, lotId), eq(results.position, position)))
          .execute(),
        completeIfScreened(tx, inspector, lot).then(() =>
          record(tx, inspector, 'cord.corrected', subject, { entry: row.entry }),
        ),
      ])
      return position
    })
    return judged
  })
}

function checkedReason(typed: string): string {
  const reason = typed.trim()
  if (reason === '' || reason.length > lengths.note) throw new Refusal('invalid', 'correction/reason', {}, 'reason')
  return reason
}

/** Microseconds of its time too, which a Date here would lose: a signature may rest on them. */
async function keepFormer(tx: Tx, former: StandingRow, inspector: Person, correctionReason: string): Promise<void> {
  const { counts, undecided, ...kept } = former
  const cord = and(eq(results.lotId, kept.lotId), eq(results.position, kept.position))
  const recordedAt = sql`(select ${results.recordedAt} from ${results} where ${cord})`
  await tx
    .insert(earlierResults)
    .values({ ...kept, recordedAt, correctedBy: inspector.id, correctionReason })
    .execute()
}

type StandingRow = typeof results.$inferSelect

/** The entry that stands, if it is the one that the inspector saw and is open still: what a manager ruled is not undone by who reported it. */
async function correctable(
  tx: Tx,
  standing: StandingRow | undefined,
  { lotId, position, entryNumber }: { lotId: number; position: number; entryNumber: number },
): Promise<StandingRow> {
  if (!standing) throw new Refusal('invalid', 'correction/no-entry', { position }, 'position')
  if (standing.entry !== entryNumber) throw new Refusal('conflict', 'correction/corrected-since', { position })
  if (!standing.counts && !standing.undecided) throw new Refusal('conflict', 'correction/closed', { position })
  const cord = and(eq(rulings.lotId, lotId), eq(rulings.position, position))
  const [ruled] = await tx.select({ position: rulings.position }).from(rulings).where(cord)
  if (ruled) throw new Refusal('conflict', 'correction/ruled', { position })
  return standing
}
