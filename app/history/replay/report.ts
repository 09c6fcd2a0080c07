// The percentage question for a supplier, an item or everything: one page that a buyer can put before a supplier.
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Run } from '../../kit/task.ts'
import type { WhichLots } from '../counted-lots.ts'
import { readUntilMoved } from '../moved.ts'
import { alikeLots } from './alike-lots.ts'
import { type DrawnSample, type DrawWish, drawnSample } from './drawn.ts'
import { spoolTask } from './remainders.ts'
import { type PercentageSheet, sheetTask } from './sheet.ts'
import { markedSpools } from './spools.ts'

export type Scope = { supplier: string | undefined; item: string | undefined }
export type ReportWish = WhichLots & DrawWish & { percent: string; allowed: number }

export type PercentageReport = PercentageSheet & {
  scope: Scope
  percent: string
  allowed: number
  leftOut: number
  drawn: DrawnSample
}

/** Reads the lots and has the sheet worked out. Throws Refusal where supplier or item is missing. */
export async function percentageReport(db: Db, run: Run, wish: ReportWish): Promise<PercentageReport> {
  const { percent, allowed, supplierId, itemId, lot, draw } = wish
  const which = { supplierId, itemId }
  const scope = await scopeOf(db, which)
  const { known, leftOut, spools } = await replayedFacts(db, which, run)
  const sheet = await run(sheetTask, { known, spools, percent, allowed })
  const drawn = await drawnSample(db, which, { percent, acceptanceNumber: allowed }, { lot, draw, run })
  return { ...sheet, scope, percent, allowed, leftOut, drawn }
}

/** What a replay reads, and what its spools say, is the same for every percentage. */
const replayedFacts = readUntilMoved(async (db, which: WhichLots, run) => ({
  ...(await alikeLots(db, which)),
  spools: await run(spoolTask, await markedSpools(db, which)),
}))

async function scopeOf(db: Db, { supplierId, itemId }: WhichLots): Promise<Scope> {
  const [supplier] =
    supplierId === undefined ? [] : await db.select().from(suppliers).where(eq(suppliers.id, supplierId))
  const [item] = itemId === undefined ? [] : await db.select().from(items).where(eq(items.id, itemId))
  if (supplierId !== undefined && !supplier) throw new Refusal('missing', 'supplier/missing', { supplier: supplierId })
  if (itemId !== undefined && !item) throw new Refusal('missing', 'item/missing', { item: itemId })
  return { supplier: supplier?.name, item: item?.name }
}
