// The reserves of a draw: the picks after the sample, of which the next one takes the place of a cord that cannot be had.
import { eq } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { drawnCords, draws } from '../../../db/schema/results.ts'
import { machineSha256 } from '../../kit/sha256.ts'
import { drawUnits } from '../../statistics/draw.ts'
import { tallyOf } from './tally.ts'
import { frozenPlanOf } from './testing.ts'

/** Who lets it, and for which cord. */
type Place = { lotId: number; position: number; stage: number | null; allowedBy: number }

/**
 * Draws the next reserve of the recorded draw into a cord's place, never the next one in the carton. Returns its position and pick;
 * undefined where every place of the lot is drawn.
 */
export async function drawReserve(
  tx: Tx,
  { lotId, position: standsInFor, stage, allowedBy }: Place,
): Promise<{ standIn: number; pick: number } | undefined> {
  const { lotSize, sampleSize } = await frozenPlanOf(tx, lotId)
  const pick = sampleSize + (await tallyOf(tx, lotId)).standIns + 1
  if (pick > lotSize) return undefined
  const [draw] = await tx.select().from(draws).where(eq(draws.lotId, lotId))
  const position = draw && drawUnits({ lotSize, sampleSize: pick, seed: draw.seed }, machineSha256).at(-1)
  if (position === undefined) throw new Error(`lot ${lotId} is drawn and its draw is not there`)
  await tx.insert(drawnCords).values({ lotId, position, purpose: 'stand-in', pick, stage, standsInFor, allowedBy })
  return { standIn: position, pick }
}
