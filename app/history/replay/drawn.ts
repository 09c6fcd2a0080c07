// One lot tested whole, with one sample by the percentage laid over it, and the others that could be shown so.
import type { Db } from '../../../db/client.ts'
import type { Run } from '../../kit/task.ts'
import type { WhichLots } from '../counted-lots.ts'
import type { ShareOfLots } from './effort.ts'
import { lotGrid, type ReplayedGrid } from './grid.ts'
import { type ReplayedLot, wholeLots } from './whole-lots.ts'

/** lot: the one to be drawn; where none is named, the latest that held too many. draw: 1, 2, 3 …, another sample each. */
export type DrawWish = { lot?: number | undefined; draw: number }

export type DrawnSample = {
  /** the latest lots tested whole */
  lots: ReplayedLot[]
  grid: ReplayedGrid | undefined
  draw: number
  /** the lot that was to be drawn and is too large for it */
  tooLargeToDraw: number | undefined
}

/** More cords than this are no picture any more. */
const largestGrid = 2000

/** A lot that is not among those tested whole is not drawn. */
export async function drawnSample(
  db: Db,
  which: WhichLots,
  share: ShareOfLots,
  { lot, draw, run }: DrawWish & { run: Run },
): Promise<DrawnSample> {
  const lots = await wholeLots(db, { ...which, lotId: lot }, share, run)
  const drawable = ({ size }: ReplayedLot) => size <= largestGrid
  const shown =
    lots.find(({ lotId }) => lotId === lot) ??
    lots.find((each) => each.heldTooMany && drawable(each)) ??
    lots.find(drawable) ??
    lots[0]
  if (shown === undefined) return { lots, grid: undefined, draw, tooLargeToDraw: undefined }
  if (!drawable(shown)) return { lots, grid: undefined, draw, tooLargeToDraw: shown.lotId }
  const seed = `lot ${shown.lotId}, sample ${draw}`
  return {
    lots,
    grid: await lotGrid(db, shown.lotId, { percent: share.percent, seed }),
    draw,
    tooLargeToDraw: undefined,
  }
}
