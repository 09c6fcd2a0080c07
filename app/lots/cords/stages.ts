// Cords of a plan with several stages are recorded stage after stage: whether a later one is tested is for the plan to say.
import { and, eq, sql } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { drawnCords } from '../../../db/schema/results.ts'
import { Refusal } from '../../kit/refusal.ts'
import { type Count, type Reached, reachedBy } from '../decision/verdict.ts'
import type { LockedLot } from '../lock.ts'
import { stageCountsOf, tallyOf } from './tally.ts'
import type { FrozenPlan } from './testing.ts'

/**
 * Refuses a cord of a later stage than the one that runs. Once the plan has its verdict, only what is left of the stage
 * that brought it may still be recorded.
 */
export async function requireItsStage(
  tx: Tx,
  lot: LockedLot,
  plan: FrozenPlan,
  { position, stage }: { position: number; stage: number | null },
): Promise<void> {
  if (!inStages(lot, plan)) return
  const reached = reachedBy(plan.stages, await countsOf(tx, plan))
  if ((stage ?? 1) > reached.stage) throw new Refusal('conflict', reasonOf(position, reached))
}

/** The same for many cords at once, each counted with what it was judged to be: those of stages that the plan does not come to. */
export async function outOfStage<T extends { position: number; nonconforming: boolean }>(
  tx: Tx,
  lot: LockedLot,
  plan: FrozenPlan,
  cords: T[],
): Promise<{ cord: T; reason: string }[]> {
  if (!inStages(lot, plan)) return []
  const stages = await stagesOf(tx, lot.id, cords)
  const counts = await countsOf(tx, plan)
  for (const { position, nonconforming } of cords) {
    const index = (stages.get(position) ?? 1) - 1
    const { recorded, found } = counts[index] ?? { recorded: 0, found: 0 }
    counts[index] = { recorded: recorded + 1, found: found + (nonconforming ? 1 : 0) }
  }
  const reached = reachedBy(plan.stages, counts)
  return cords
    .filter(({ position }) => (stages.get(position) ?? 1) > reached.stage)
    .map((cord) => ({ cord, reason: reasonOf(cord.position, reached) }))
}

function inStages(lot: LockedLot, plan: FrozenPlan): boolean {
  return lot.state === 'drawn' && plan.stages.length > 1
}

async function countsOf(tx: Tx, plan: FrozenPlan): Promise<Count[]> {
  return stageCountsOf(tx, plan, await tallyOf(tx, plan.lotId))
}

/** One parameter for all positions: a file may name more cords than a statement takes parameters. */
async function stagesOf(tx: Tx, lotId: number, cords: { position: number }[]): Promise<Map<number, number>> {
  const positions = `{${cords.map(({ position }) => position).join(',')}}`
  const drawn = await tx
    .select({ position: drawnCords.position, stage: drawnCords.stage })
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), sql`${drawnCords.position} = any (${positions}::int[])`))
  return new Map(drawn.map(({ position, stage }) => [position, stage ?? 1]))
}

function reasonOf(position: number, { verdict }: Reached): string {
  return verdict
    ? `The plan has its verdict without cord ${position}: it is not tested`
    : `Cord ${position} belongs to a later stage of the plan: those before it come first`
}
