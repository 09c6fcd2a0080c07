// How the testing of a lot went: whether its sample is still the one that was drawn, and since which cord it is rejected.
import { and, asc, eq, lte, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { drawnCords, results } from '../../../db/schema/results.ts'
import type { Stage } from '../../statistics/plans/plan.ts'
import { type CordPlace, placeOf } from '../rules/place.ts'
import type { PlanProgress } from '../rules/progress.ts'
import type { Tally } from './tally.ts'

/** The condition of every bound: drawn at random from the whole lot. Broken by a stand-in, or by a cord that could not be tested. */
export type DrawIntegrity = { kind: 'kept' } | { kind: 'broken'; standIns: number; notTested: number }

/** Broken by a stand-in for a cord of the lot and by a cord of the sample that could not be tested; an empty place breaks nothing. */
export function drawIntegrityOf({ replaced: standIns, sampleNotTested: notTested }: Tally): DrawIntegrity {
  return standIns + notTested === 0 ? { kind: 'kept' } : { kind: 'broken', standIns, notTested }
}

/** The cord with which the stage's rejection number was reached, in the order in which the standing entries were made. */
export async function rejectedSince(
  db: Db | Tx,
  plan: { lotId: number; lotSize: number; stages: readonly Stage[] },
  { stage }: PlanProgress,
  cordsInCarton: number,
): Promise<({ position: number; at: Date } & CordPlace) | undefined> {
  const rejectionNumber = plan.stages[stage - 1]?.rejectionNumber ?? 1
  const failing = db
    .select({ position: results.position, at: results.recordedAt })
    .from(results)
    .where(and(eq(results.lotId, plan.lotId), sql`${results.nonconforming} and ${results.counts}`))
    .orderBy(asc(results.recordedAt), asc(results.position))
    .limit(plan.lotSize)
    .as('failing')
  const inStage = db
    .select({ stage: drawnCords.stage })
    .from(drawnCords)
    .where(
      and(eq(drawnCords.lotId, plan.lotId), eq(drawnCords.position, failing.position), lte(drawnCords.stage, stage)),
    )
    .limit(1)
    .as('in_stage')
  // Both limits keep the order of work: cord after cord by the index of just these, until enough are met.
  const [cord] = await db
    .select({ position: failing.position, at: failing.at })
    .from(failing)
    .crossJoinLateral(inStage)
    .orderBy(asc(failing.at), asc(failing.position))
    .offset(rejectionNumber - 1)
    .limit(1)
  return cord && { ...cord, ...placeOf(cord.position, cordsInCarton) }
}
