// The count at the dock: from then on it is the lot's size.

import { sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { changeLot, lockLot, requireState, requireVersion } from '../record/lock.ts'
import { stateAfter } from '../rules/lifecycle.ts'
import { checkPacking, type Packing } from '../rules/packing.ts'

/**
 * Takes the lot in as it was counted. A count that differs from the announced one stands beside it; it may be repeated
 * until the plan is frozen, and every count stays in the audit.
 */
export async function receiveLot(
  db: Db,
  inspector: Person,
  lotId: number,
  { version, note, ...counted }: Packing & { version: number; note: string },
): Promise<void> {
  checkPacking(counted)
  const receiptNote = note.trim()
  if (receiptNote.length > lengths.reason) throw new Refusal('invalid', 'lot/note-length', {}, 'note')
  await db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'receive-lot')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'receive')
    requireVersion(lot, version)
    const { size, cartons, cordsInCarton } = counted
    await changeLot(tx, lot, {
      size,
      cartons,
      cordsInCarton,
      receiptNote,
      receivedBy: inspector.id,
      receivedAt: sql`clock_timestamp()`,
      state: stateAfter('receive', lot.state),
    })
    await record(tx, inspector, 'lot.received', `lot/${lotId}`, {
      size,
      cartons,
      cordsInCarton,
      announced: lot.announcedSize,
      note: receiptNote,
      before: lot.size ?? undefined,
    })
  })
}
