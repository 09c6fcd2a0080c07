// Cords of a plan with several stages are recorded stage after stage: whether a later one is tested is for the plan to say.
import { sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { because, Refusal } from '../../kit/refusal.ts'
import { addBadRow, type BadRows, noBadRows } from '../rules/file/bad-rows.ts'
import type { ReadRows } from '../rules/file/sheet.ts'
import { firstFetchOf, type PlanWithStandard } from '../rules/first-fetch.ts'
import { lifecycle } from '../rules/lifecycle.ts'
import { type PlanProgress, progressOf, type SampleCount } from '../rules/progress.ts'
import { type SampleInStages, testingOf } from '../rules/undecided.ts'
import { cordsOf, rowsInOrder } from './file-rows.ts'
import type { LotUnderTest } from './lock.ts'
import { notHadOf, undecidedByStage } from './not-had.ts'
import { firstFetchCount, stageCountsOf, tallyOf } from './tally.ts'
import type { PlanUnderTest } from './testing.ts'

type StagedPlan = Pick<PlanUnderTest, 'lotId' | 'stages' | keyof PlanWithStandard>

/**
 * Refuses a cord of a later stage than the one that runs. Once the plan has its verdict, only what is left of the stage
 * that brought it may still be recorded. A cord of the first fetch may be as long as that goes on, of whatever stage it is.
 */
export async function requireItsStage(
  tx: Tx,
  lot: LotUnderTest,
  plan: StagedPlan,
  { position, stage, pick, takesPick }: StagedCord,
): Promise<void> {
  if (!inStages(lot, plan)) return
  const { counts, undecided, firstPicks } = await countsOf(tx, plan)
  const reached = reachedIn(plan, { counts, undecided })
  if ((takesPick ?? pick ?? Number.POSITIVE_INFINITY) <= firstPicks) return
  if ((stage ?? 1) > reached.stage) throw new Refusal('conflict', codeOf(reached), { position })
}

type StagedCord = { position: number; stage: number | null; pick: number | null; takesPick: number | null }

/** The same for a whole file, counted with what its rows were judged to be: those of stages that the plan does not come to. */
export async function outOfStage(tx: Db | Tx, lot: LotUnderTest, plan: StagedPlan, file: ReadRows): Promise<BadRows> {
  const bad = noBadRows()
  if (!inStages(lot, plan)) return bad
  const { counts, undecided, firstPicks } = await countsWith(tx, plan, file)
  const reached = reachedIn(plan, { counts, undecided })
  for (const part of file.parts) {
    const later = await tx.execute<{ position: number }>(
      sql`select position ${cordsOf(lot.id, part)} and stage > ${reached.stage} and coalesce(takes_pick, pick) > ${firstPicks}::int`,
    )
    for (const { position } of rowsInOrder(file, later))
      addBadRow(bad, file.lines[position] ?? 0, because(codeOf(reached), { position }))
  }
  return bad
}

/** What would be recorded of each stage, were the file's rows too. */
async function countsWith(tx: Db | Tx, plan: StagedPlan, { parts }: ReadRows): Promise<Counts> {
  const { counts, ...others } = await countsOf(tx, plan)
  for (const part of parts) {
    const added = await tx.execute<SampleCount & { stage: number }>(sql`
      select coalesce(stage, 1) as stage, count(*)::int as recorded,
        (count(*) filter (where position = any (${part.nonconforming}::int[])))::int as found
      ${cordsOf(plan.lotId, part)} group by 1`)
    for (const { stage, recorded, found } of added) {
      const before = counts[stage - 1] ?? { recorded: 0, found: 0 }
      counts[stage - 1] = { recorded: before.recorded + recorded, found: before.found + found }
    }
  }
  return { counts, ...others }
}

function inStages(lot: LotUnderTest, plan: StagedPlan): boolean {
  return lifecycle[lot.state].accept !== undefined && plan.stages.length > 1
}

/** firstPicks: so many picks of the draw are open whatever their stage; 0 where no first fetch goes on. */
type Counts = { counts: SampleCount[]; undecided: number[]; firstPicks: number }

/** The stage whose cords are tested: undecided ones stop nothing. */
function reachedIn({ stages }: StagedPlan, sample: Omit<SampleInStages, 'replaced'>) {
  return {
    stage: testingOf(stages, { ...sample, replaced: [] }).stage,
    verdict: progressOf(stages, sample.counts).verdict,
  }
}

async function countsOf(tx: Db | Tx, plan: StagedPlan): Promise<Counts> {
  const tally = await tallyOf(tx, plan.lotId)
  const fetch = firstFetchOf(plan, firstFetchCount(tally))
  const { undecided } = await notHadOf(tx, plan.lotId, tally)
  return {
    counts: await stageCountsOf(tx, plan, tally),
    undecided: undecidedByStage(undecided),
    firstPicks: fetch?.open ? fetch.sampleSize : 0,
  }
}

function codeOf({ verdict }: Pick<PlanProgress, 'verdict'>) {
  return verdict ? 'cord/after-verdict' : 'cord/later-stage'
}
