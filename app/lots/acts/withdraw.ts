// A lot withdrawn before its decision: entered by mistake, or sent back untested.

import { sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { changeLot, lockLot, requireState, requireVersion } from '../record/lock.ts'

/** Withdraws a lot that nobody has decided on. It stays readable with all that was recorded of it. */
export async function withdrawLot(
  db: Db,
  manager: Person,
  lotId: number,
  { version, reason }: { version: number; reason: string },
): Promise<void> {
  const withdrawalReason = reason.trim()
  if (withdrawalReason === '' || withdrawalReason.length > lengths.reason)
    throw new Refusal('invalid', 'lot/withdrawal-reason', {}, 'reason')
  await db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'withdraw-lot')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'withdraw')
    requireVersion(lot, version)
    await changeLot(tx, lot, {
      state: 'withdrawn',
      withdrawnBy: manager.id,
      withdrawnAt: sql`clock_timestamp()`,
      withdrawalReason,
    })
    await record(tx, manager, 'lot.withdrawn', `lot/${lotId}`, { reason: withdrawalReason, before: lot.state })
  })
}
