// Lots tested to the last cord, read in groups that are alike in all that a replay asks.
import { and, eq, ne, type SQL, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots, plans } from '../../../db/schema/lots.ts'
import { tallies } from '../../../db/schema/results.ts'
import type { WhichLots } from '../counted-lots.ts'
import type { AlikeLots } from './alike.ts'

/** Nonconforming cords of the whole lot, sampled and screened. */
export const foundInAll = sql<number>`${tallies.sampleNonconforming} + ${tallies.restNonconforming}`

/** Places whose cord counts nowhere. */
const notCounted = sql`${tallies.replaced} + ${tallies.noCord}`

/** Whether every cord has a result of its own: none was gone, none could not be tested. */
export const everyCordTested = sql<boolean>`${tallies.notTested} + ${notCounted} = 0`

/** Lots tested to the end, in a query that joins lots with their plans and tallies. */
export function testedToTheEnd({ supplierId, itemId }: WhichLots): SQL | undefined {
  const recorded = sql`${tallies.sampleRecorded} + ${tallies.restRecorded}`
  return and(
    supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
    itemId === undefined ? undefined : eq(lots.itemId, itemId),
    ne(lots.state, 'withdrawn'),
    sql`${recorded} + ${notCounted} = ${plans.lotSize}`,
  )
}

/** The lots of which every cord was tested, and how many that were tested to the end are left out for a cord that could not be. */
export async function alikeLots(db: Db, which: WhichLots): Promise<{ known: AlikeLots[]; leftOut: number }> {
  const byPlan = sql<boolean>`${plans.sampleSize} = ${plans.lotSize}`
  const { lotSize: size, tooMany, catchOf100, costTestCents, costEscapeCents, costReturnCents, afterRejection } = plans
  const terms = { tooMany, catchOf100, costTestCents, costEscapeCents, costReturnCents, afterRejection }
  const groups = await db
    .select({ lots: sql<number>`count(*)::int`, whole: everyCordTested, size, found: foundInAll, byPlan, ...terms })
    .from(lots)
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .where(testedToTheEnd(which))
    .groupBy(everyCordTested, size, foundInAll, byPlan, ...Object.values(terms))
    .orderBy(size, foundInAll, byPlan, ...Object.values(terms))
  const leftOut = groups.filter(({ whole }) => !whole).reduce((sum, group) => sum + group.lots, 0)
  return { known: groups.filter(({ whole }) => whole).map(({ whole, ...alike }) => alike), leftOut }
}
