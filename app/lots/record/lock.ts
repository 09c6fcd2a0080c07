// Every act on a lot begins here: the lot's row is locked, so that two people act one after the other.

import { eq } from 'drizzle-orm'
import type { PgUpdateSetSource } from 'drizzle-orm/pg-core'
import type { Tx } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotState } from '../../terms/lot.ts'

export type LockedLot = typeof lots.$inferSelect

/** Locks the lot until the transaction ends. Throws Refusal (missing) where there is no such lot. */
export async function lockLot(tx: Tx, lotId: number): Promise<LockedLot> {
  const [lot] = await tx.select().from(lots).where(eq(lots.id, lotId)).for('update')
  if (!lot) throw new Refusal('missing', `There is no lot ${lotId}`)
  return lot
}

/** Refuses an act that the lot is too early or too late for. `act` completes "… and cannot be". */
export function requireState(lot: LockedLot, states: LotState[], act: string): void {
  if (states.includes(lot.state)) return
  throw new Refusal('conflict', `Lot ${lot.id} is ${stateNames[lot.state]} and cannot be ${act}`)
}

/** Refuses a form that was made from an older page. */
export function requireVersion(lot: LockedLot, version: number): void {
  if (lot.version === version) return
  throw new Refusal(
    'conflict',
    `Lot ${lot.id} was changed since this page was opened: look at it again, nothing was done`,
  )
}

/** Writes the lot's change. The database raises its version and the time at which it last moved, and does the same for every entry. */
export async function changeLot(tx: Tx, lot: LockedLot, change: PgUpdateSetSource<typeof lots>): Promise<void> {
  await tx.update(lots).set(change).where(eq(lots.id, lot.id))
}

/** A lot's state as a sentence says it. */
const stateNames = {
  announced: 'announced',
  received: 'received',
  planned: 'planned',
  drawn: 'drawn',
  accepted: 'accepted',
  conceded: 'accepted under concession',
  screening: 'being screened',
  screened: 'screened',
  sorted: 'sorted',
  returned: 'returned',
  withdrawn: 'withdrawn',
} as const satisfies Record<LotState, string>
