// What was counted in decided lots: those of one supplier lot by lot, every other supplier's all together.
import { and, eq, inArray, ne, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { tallies } from '../../db/schema/results.ts'
import { decidedStates } from '../lots/rules/lifecycle.ts'
import type { LotResult } from '../statistics/history/lots.ts'

/** Reads tallies alone, so no cord is read. The lot that the advice is for is left out. */
export async function lotResultsFor(
  db: Db,
  supplierId: number,
  lotId: number,
): Promise<{ own: LotResult[]; others: LotResult[] }> {
  const recorded = sql<number>`${tallies.sampleRecorded} + ${tallies.restRecorded}`
  const found = sql<number>`${tallies.sampleNonconforming} + ${tallies.restNonconforming}`
  const known = and(inArray(lots.state, decidedStates), ne(lots.id, lotId))
  const own = await db
    .select({ sampleSize: recorded, found })
    .from(lots)
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .where(and(known, eq(lots.supplierId, supplierId)))
    .orderBy(lots.id)
  const others = await db
    .select({ sampleSize: sql<number>`sum(${recorded})::int`, found: sql<number>`sum(${found})::int` })
    .from(lots)
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .where(and(known, ne(lots.supplierId, supplierId)))
    .groupBy(lots.supplierId)
    .orderBy(lots.supplierId)
  return { own, others }
}
