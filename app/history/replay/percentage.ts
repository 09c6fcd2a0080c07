// The percentage question: what testing a fixed percentage would have done to lots of which every cord was tested.
import type { Db } from '../../../db/client.ts'
import { Refusal } from '../../kit/refusal.ts'
import { type Run, runOf } from '../../kit/task.ts'
import { supplierOf } from '../../register/suppliers.ts'
import { knownWhole, piecesOf } from '../counted.ts'
import { countedLots } from '../counted-lots.ts'
import { ownFraction } from '../summary.ts'
import { type AverageFraction, averageFraction } from './remainders.ts'
import { checkPercent, knownLot, type ReplaySum, replayTask } from './replayed.ts'

export type PercentageQuestion = {
  supplier: { id: number; name: string }
  percent: string
  acceptanceNumber: number
  /** tested whole because the plan said so from the start */
  byPlan: ReplaySum
  /** tested whole because the sample had failed or the manager was not content: worse than this supplier’s other lots, mostly */
  afterScreening: ReplaySum
  /** lots tested to the end that are left out because a cord was missing or could not be tested */
  leftOut: number
  /** of the supplier's lots: for the picture beside it */
  fraction: AverageFraction
}

/**
 * Replays the percentage on every lot of the supplier of which each cord was tested, exactly, over all samples that
 * could have been drawn. Found cords are taken out of an accepted lot; a rejected lot ships none.
 *
 * @param percent plain decimal above 0, at most 100
 * @param acceptanceNumber nonconforming cords that the percentage allows
 */
export async function percentageQuestion(
  db: Db,
  run: Run,
  supplierId: number,
  percent: string,
  acceptanceNumber: number,
): Promise<PercentageQuestion> {
  checkPercent(percent)
  if (!Number.isInteger(acceptanceNumber) || acceptanceNumber < 0)
    throw new Refusal('invalid', 'percentage/allowed', {}, 'allowed')
  const supplier = await supplierOf(db, supplierId)
  const counted = await countedLots(db, { supplierId })
  const own = ownFraction(counted)
  const { known, leftOut } = knownWhole(counted)
  const question = { known: known.map(knownLot), percent, acceptanceNumber }
  return {
    supplier,
    percent,
    acceptanceNumber,
    ...(await runOf(piecesOf(question.known), run)(replayTask, question)),
    leftOut,
    fraction: averageFraction(own?.fraction),
  }
}
