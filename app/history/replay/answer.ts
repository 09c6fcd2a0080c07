// The whole answer to the percentage question: the replay, one lot drawn cord by cord, and the spool beside it.
import type { Db } from '../../../db/client.ts'
import type { Run } from '../../kit/task.ts'
import { lotGrid, type ReplayedGrid } from './grid.ts'
import { type PercentageQuestion, percentageQuestion } from './percentage.ts'
import { type Remainders, remaindersOf, usualLot } from './remainders.ts'

/** lot: the one to be drawn; where none is named, the first that held too many. draw: 1, 2, 3 …, another sample each. */
export type ReplayWish = { percent: string; allowed: number; lot?: number | undefined; draw: number }

export type PercentageReplay = {
  question: PercentageQuestion
  grid: ReplayedGrid | undefined
  draw: number
  /** the lot that was to be drawn and is too large for it */
  tooLargeToDraw: number | undefined
  /** for the lot shown */
  remainders: Remainders
}

/** More cords than this are no picture any more. */
const largestGrid = 2000

/** Answers the question for one supplier; a lot that is not among the replayed ones is not drawn. */
export async function replayPercentage(
  db: Db,
  run: Run,
  supplierId: number,
  wish: ReplayWish,
): Promise<PercentageReplay> {
  const { percent, allowed, draw } = wish
  const question = await percentageQuestion(db, run, supplierId, percent, allowed)
  const lots = [...question.byPlan.lots, ...question.afterScreening.lots]
  const shown = lots.find(({ lotId }) => lotId === wish.lot) ?? lots.find((lot) => lot.heldTooMany) ?? lots[0]
  const drawable = shown !== undefined && shown.size <= largestGrid
  const seed = `lot ${shown?.lotId}, sample ${draw}`
  return {
    question,
    grid: drawable ? await lotGrid(db, shown.lotId, { percent, seed }) : undefined,
    draw,
    tooLargeToDraw: drawable ? undefined : shown?.lotId,
    remainders: remaindersOf(shown?.size ?? usualLot, percent, { fraction: question.fraction, correlation: undefined }),
  }
}
