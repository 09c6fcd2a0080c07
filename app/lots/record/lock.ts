// Every act on a lot begins here: the lot's row is locked, so that two people act one after the other.

import { eq } from 'drizzle-orm'
import type { PgUpdateSetSource } from 'drizzle-orm/pg-core'
import type { Tx } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { statement } from '../../../db/statement.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotAct } from '../../terms/lot.ts'
import { lifecycle } from '../rules/lifecycle.ts'

export type LockedLot = typeof lots.$inferSelect

/** Locks the lot until the transaction ends. Throws Refusal (missing) where there is no such lot. */
export async function lockLot(tx: Tx, lotId: number): Promise<LockedLot> {
  const [lot] = await tx.select().from(lots).where(eq(lots.id, lotId)).for('update')
  if (!lot) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  return lot
}

/** Of a lot what an act on one of its cords needs, as each cord at the bench asks for it. */
export type LotUnderTest = Pick<LockedLot, 'id' | 'state' | 'size'>

/** Locks the lot as `lockLot` does. */
export async function lockLotUnderTest(tx: Tx, lotId: number): Promise<LotUnderTest> {
  const [lot] = await lockedUnderTest(tx, { lotId })
  if (!lot) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  return lot
}

/** Refuses an act that the lot is too early or too late for. */
export function requireState(lot: Pick<LockedLot, 'id' | 'state'>, act: LotAct): void {
  if (lifecycle[lot.state][act]) return
  throw new Refusal('conflict', 'lot/state', { lot: lot.id, state: lot.state, act })
}

/** Refuses a form that was made from an older page. */
export function requireVersion(lot: LockedLot, version: number): void {
  if (lot.version === version) return
  throw new Refusal('conflict', 'lot/changed-since', { lot: lot.id })
}

/** Writes the lot's change. The database raises its version and the time at which it last moved, and does the same for every entry. */
export async function changeLot(
  tx: Tx,
  lot: Pick<LockedLot, 'id'>,
  change: PgUpdateSetSource<typeof lots>,
): Promise<void> {
  await tx.update(lots).set(change).where(eq(lots.id, lot.id))
}

const lockedUnderTest = statement<{ lotId: number }>('lot_under_test', ['lotId']).worded((db, { lotId }) => {
  const { id, state, size } = lots
  return db.select({ id, state, size }).from(lots).where(eq(id, lotId)).for('update')
})
