// Where the cords of a decided lot went: every one that was received is kept, sent back or missing.
import { and, count, eq, ne } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import type { lots } from '../../../db/schema/lots.ts'
import { results } from '../../../db/schema/results.ts'
import type { Balance } from '../show.ts'

/** Accepting never includes the cords found nonconforming: they are taken out and sent back. Undefined until the last decision. */
export async function balanceOf(db: Db | Tx, lot: typeof lots.$inferSelect): Promise<Balance | undefined> {
  const received = lot.size
  if (received === null || !['accepted', 'conceded', 'sorted', 'returned'].includes(lot.state)) return undefined
  const missing = await counted(db, and(eq(results.lotId, lot.id), eq(results.kind, 'missing')))
  const takenOut = await counted(
    db,
    and(eq(results.lotId, lot.id), eq(results.nonconforming, true), ne(results.kind, 'missing')),
  )
  const sentBack = lot.state === 'returned' ? received - missing : takenOut
  return { received, kept: received - sentBack - missing, sentBack, missing }
}

async function counted(db: Db | Tx, which: ReturnType<typeof and>): Promise<number> {
  const [row] = await db.select({ cords: count() }).from(results).where(which)
  return row?.cords ?? 0
}
