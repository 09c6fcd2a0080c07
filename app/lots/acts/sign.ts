// What every signature on a lot needs: the manager's own password, a lot as the manager saw it, and clean hands.

import { and, eq, or } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { earlierResults, results } from '../../../db/schema/results.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { requireRole } from '../../people/person.ts'
import { verifyPassword } from '../../people/sessions/sign-in.ts'
import { requireStanding } from '../../people/standing.ts'
import type { LotAct } from '../../terms/lot.ts'
import type { Person } from '../../terms/person.ts'
import { type LockedLot, lockLot, requireState, requireVersion } from '../record/lock.ts'

export type Signature = { version: number; password: string; reason: string }

/** Checks role and password before the lot is locked: a slow hash would hold up the bench. Returns the reason as it is kept. */
export async function checkSignature(db: Db, manager: Person, { password, reason }: Signature): Promise<string> {
  requireRole(manager, 'decide-lot')
  const kept = reason.trim()
  if (kept.length > lengths.reason) throw new Refusal('invalid', 'decision/reason-length', {}, 'reason')
  await verifyPassword(db, manager, password)
  return kept
}

/** Locks the lot for a decision: in a state for `act`, which this decision alone may be, as the manager saw it, and not recorded by the manager. */
export async function lockToDecide(
  tx: Tx,
  manager: Person,
  lotId: number,
  { version, act }: { version: number; act: LotAct },
): Promise<LockedLot> {
  await requireStanding(tx, manager, 'decide-lot')
  const lot = await lockLot(tx, lotId)
  requireState(lot, act)
  requireVersion(lot, version)
  if (manager.separateDuties) await refuseRecorder(tx, manager, lotId)
  return lot
}

/** The database holds this rule too; here it gets its sentence. */
async function refuseRecorder(tx: Tx, manager: Person, lotId: number): Promise<void> {
  const [recorded] = await tx
    .select({ position: results.position })
    .from(results)
    .where(and(eq(results.lotId, lotId), eq(results.recordedBy, manager.id)))
    .limit(1)
  const [former] = await tx
    .select({ position: earlierResults.position })
    .from(earlierResults)
    .where(
      and(
        eq(earlierResults.lotId, lotId),
        or(eq(earlierResults.recordedBy, manager.id), eq(earlierResults.correctedBy, manager.id)),
      ),
    )
    .limit(1)
  if (recorded || former) throw new Refusal('forbidden', 'decision/own-results', { lot: lotId, name: manager.name })
}
