// How many cords of a lot are recorded and how many of them do not conform, as the database keeps count.
import { and, count, eq, isNotNull } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { drawnCords, tallies } from '../../../db/schema/results.ts'

export type Tally = {
  /** cords that count towards the plan's sample; one replaced by a stand-in does not */
  sampleRecorded: number
  sampleNonconforming: number
  /** the others, once a lot is screened */
  restRecorded: number
  restNonconforming: number
  /** missing or untestable, and counted as nonconforming */
  notTested: number
  standIns: number
}

/** Counts of one lot; all 0 before anything is recorded. */
export async function tallyOf(db: Db | Tx, lotId: number): Promise<Tally> {
  const [kept] = await db.select().from(tallies).where(eq(tallies.lotId, lotId))
  const [drawn] = await db
    .select({ standIns: count() })
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), isNotNull(drawnCords.standsInFor)))
  return {
    sampleRecorded: kept?.sampleRecorded ?? 0,
    sampleNonconforming: kept?.sampleNonconforming ?? 0,
    restRecorded: kept?.restRecorded ?? 0,
    restNonconforming: kept?.restNonconforming ?? 0,
    notTested: kept?.notTested ?? 0,
    standIns: drawn?.standIns ?? 0,
  }
}

/** Cords of which an entry exists: behind each stand-in stands one that counts no more. */
export function entriesOf({ sampleRecorded, restRecorded, standIns }: Tally): number {
  return sampleRecorded + restRecorded + standIns
}
