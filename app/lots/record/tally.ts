// How many cords of a lot are recorded and how many of them do not conform, as the database keeps count.
import { and, eq, inArray, isNotNull, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { drawnCords, results, tallies } from '../../../db/schema/results.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import type { SampleCount } from '../rules/progress.ts'

export type Tally = {
  /** cords that count towards the plan's sample; one replaced by a stand-in does not */
  sampleRecorded: number
  sampleNonconforming: number
  /** the others, once a lot is screened */
  restRecorded: number
  restNonconforming: number
  /** without a reading of its own, and counted as nonconforming */
  notTested: number
  /** of these the ones of the sample */
  sampleNotTested: number
  /** not in their place or gone, those that a stand-in replaced among them */
  missing: number
  /** cords drawn in the place of others */
  standIns: number
  /** gone or spoiled here, and not ruled on */
  undecided: number
  /** in the lot, and counted nowhere: a stand-in took their place */
  replaced: number
  /** drawn places in which no cord lies */
  noCord: number
  /** cords of the lot by the latest recount after the draw */
  recountedSize: number | undefined
  /** of the first picks that the standard's plan asks for */
  firstFetchRecorded: number
  firstFetchFound: number
}

/** What is recorded of the first fetch, where there is one. */
export function firstFetchCount({ firstFetchRecorded, firstFetchFound }: FirstFetchTally): SampleCount {
  return { recorded: firstFetchRecorded, found: firstFetchFound }
}

type FirstFetchTally = Pick<Tally, 'firstFetchRecorded' | 'firstFetchFound'>

/** Counts of one lot; all 0 before anything is recorded. */
export async function tallyOf(db: Db | Tx, lotId: number): Promise<Tally> {
  const [kept] = await db.select().from(tallies).where(eq(tallies.lotId, lotId))
  return {
    sampleRecorded: kept?.sampleRecorded ?? 0,
    sampleNonconforming: kept?.sampleNonconforming ?? 0,
    restRecorded: kept?.restRecorded ?? 0,
    restNonconforming: kept?.restNonconforming ?? 0,
    notTested: kept?.notTested ?? 0,
    sampleNotTested: kept?.sampleNotTested ?? 0,
    missing: kept?.missing ?? 0,
    standIns: kept?.standIns ?? 0,
    undecided: kept?.undecided ?? 0,
    replaced: kept?.replaced ?? 0,
    noCord: kept?.noCord ?? 0,
    recountedSize: kept?.recountedSize ?? undefined,
    firstFetchRecorded: kept?.firstFetchRecorded ?? 0,
    firstFetchFound: kept?.firstFetchFound ?? 0,
  }
}

/** Cords that do not conform. One that is undecided or was replaced counts nowhere in the sample, and was never shown to conform. */
export function nonconformingOf({ sampleNonconforming, restNonconforming, undecided, replaced }: Tally): number {
  return sampleNonconforming + restNonconforming + undecided + replaced
}

/** Places of which an entry exists, whether it counts or not. */
export function entriesOf({ sampleRecorded, restRecorded, undecided, replaced, noCord }: Tally): number {
  return sampleRecorded + restRecorded + undecided + replaced + noCord
}

/**
 * The frozen plan on the cords that the lot has: after a recount the lot is smaller, and where no reserve is left so is the sample of a
 * plan of one. What is frozen stays: this is what its bounds and its end are worked out with.
 */
export function planOnRecount<P extends { lotSize: number; sampleSize: number; stages: readonly Stage[] }>(
  plan: P,
  { recountedSize: lotSize }: Pick<Tally, 'recountedSize'>,
): P {
  if (lotSize === undefined) return plan
  const sampleSize = Math.min(plan.sampleSize, lotSize)
  const stages = plan.stages.length > 1 ? plan.stages : plan.stages.map((stage) => ({ ...stage, sampleSize }))
  return { ...plan, lotSize, sampleSize, stages }
}

/** What is recorded of each stage alone. A plan of one stage has it in its tally, so that no cord is read. */
export async function stageCountsOf(
  db: Db | Tx,
  plan: { lotId: number; stages: readonly Stage[] },
  tally: Pick<Tally, 'sampleRecorded' | 'sampleNonconforming'>,
): Promise<SampleCount[]> {
  if (plan.stages.length === 1) return [{ recorded: tally.sampleRecorded, found: tally.sampleNonconforming }]
  return (await countsByStage(db, [plan.lotId])).get(plan.lotId) ?? []
}

/** The same by lot, of several lots whose plans have several stages. */
export async function countsByStage(db: Db | Tx, lotIds: number[]): Promise<Map<number, SampleCount[]>> {
  const byLot = new Map<number, SampleCount[]>()
  if (lotIds.length === 0) return byLot
  const rows = await db
    .select({
      lotId: drawnCords.lotId,
      stage: drawnCords.stage,
      recorded: sql<number>`count(*)::int`,
      found: sql<number>`(count(*) filter (where ${results.nonconforming}))::int`,
    })
    .from(drawnCords)
    .innerJoin(results, and(eq(results.lotId, drawnCords.lotId), eq(results.position, drawnCords.position)))
    .where(and(inArray(drawnCords.lotId, lotIds), isNotNull(drawnCords.stage), eq(results.counts, true)))
    .groupBy(drawnCords.lotId, drawnCords.stage)
  for (const { lotId, stage, recorded, found } of rows) {
    const counts = byLot.get(lotId) ?? []
    if (stage !== null) counts[stage - 1] = { recorded, found }
    byLot.set(lotId, counts)
  }
  return byLot
}
