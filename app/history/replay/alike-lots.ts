// Lots tested to the last cord, read in groups that are alike in all that a replay asks.
import { and, eq, ne, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots, plans } from '../../../db/schema/lots.ts'
import { tallies } from '../../../db/schema/results.ts'
import type { WhichLots } from '../counted-lots.ts'
import type { AlikeLots } from './alike.ts'

/** The lots of which every cord was tested, and how many that were tested to the end are left out for a cord that could not be. */
export async function alikeLots(db: Db, which: WhichLots): Promise<{ known: AlikeLots[]; leftOut: number }> {
  const found = sql<number>`${tallies.sampleNonconforming} + ${tallies.restNonconforming}`
  const recorded = sql`${tallies.sampleRecorded} + ${tallies.restRecorded}`
  const whole = sql<boolean>`${tallies.notTested} + ${tallies.standIns} = 0`
  const byPlan = sql<boolean>`${plans.sampleSize} = ${plans.lotSize}`
  const { lotSize: size, tooMany, catchOf100, costTestCents, costEscapeCents, costReturnCents } = plans
  const terms = { tooMany, catchOf100, costTestCents, costEscapeCents, costReturnCents }
  const groups = await db
    .select({ lots: sql<number>`count(*)::int`, whole, size, found, byPlan, ...terms })
    .from(lots)
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .where(
      and(
        which.supplierId === undefined ? undefined : eq(lots.supplierId, which.supplierId),
        which.itemId === undefined ? undefined : eq(lots.itemId, which.itemId),
        ne(lots.state, 'withdrawn'),
        sql`${recorded} + ${tallies.standIns} = ${plans.lotSize}`,
      ),
    )
    .groupBy(whole, size, found, byPlan, ...Object.values(terms))
    .orderBy(size, found, byPlan, ...Object.values(terms))
  const leftOut = groups.filter(({ whole }) => !whole).reduce((sum, group) => sum + group.lots, 0)
  return { known: groups.filter(({ whole }) => whole).map(({ whole, ...alike }) => alike), leftOut }
}
