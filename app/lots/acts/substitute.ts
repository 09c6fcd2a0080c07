// The manager's permission to let the next cord of the draw stand in for one that could not be tested.
import { and, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { drawnCords, draws, results } from '../../../db/schema/results.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import { machineSha256 } from '../../kit/sha256.ts'
import { once } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import { drawUnits } from '../../statistics/draw.ts'
import type { Person } from '../../terms/person.ts'
import { lockLot, requireState } from '../record/lock.ts'
import { tallyOf } from '../record/tally.ts'
import { drawnCord, frozenPlanOf, standingResult } from '../record/testing.ts'

/**
 * Lets the next pick of the recorded draw take the place of a missing or untestable cord, never the next one in the
 * carton. Both stay on the record, and the pages say that the sample is no longer the one that was drawn.
 * Returns the stand-in's position.
 */
export async function allowStandIn(
  db: Db,
  manager: Person,
  lotId: number,
  { key, position }: { key: string; position: number },
): Promise<number> {
  const subject = `lot/${lotId}/cord/${position}`
  return db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'allow-stand-in')
    const lot = await lockLot(tx, lotId)
    const { made } = await once(tx, { key, person: manager, act: 'cord.stood-in', subject, input: {} }, async () => {
      requireState(lot, 'stand-in')
      const { stage } = await drawnCord(tx, lotId, position)
      await requireUntested(tx, lotId, position)
      const { lotSize, sampleSize } = await frozenPlanOf(tx, lotId)
      const pick = sampleSize + (await tallyOf(tx, lotId)).standIns + 1
      if (pick > lotSize) throw new Refusal('conflict', 'stand-in/none-left', {})
      const standIn = await pickOf(tx, lotId, lotSize, pick)
      await tx.insert(drawnCords).values({
        lotId,
        position: standIn,
        purpose: 'stand-in',
        pick,
        stage,
        standsInFor: position,
        allowedBy: manager.id,
      })
      await tx
        .update(results)
        .set({ counts: false })
        .where(and(eq(results.lotId, lotId), eq(results.position, position)))
      await record(tx, manager, 'cord.stood-in', subject, { standIn, pick })
      return standIn
    })
    return made
  })
}

async function requireUntested(tx: Tx, lotId: number, position: number): Promise<void> {
  const standing = await standingResult(tx, lotId, position)
  if (!standing || standing.result.kind === 'tested') throw new Refusal('conflict', 'stand-in/not-needed', { position })
  if (!standing.result.counts) throw new Refusal('conflict', 'stand-in/there-already', { position })
}

async function pickOf(tx: Tx, lotId: number, lotSize: number, pick: number): Promise<number> {
  const [draw] = await tx.select().from(draws).where(eq(draws.lotId, lotId))
  const position = draw && drawUnits({ lotSize, sampleSize: pick, seed: draw.seed }, machineSha256).at(-1)
  if (position === undefined) throw new Error(`lot ${lotId} is drawn and its draw is not there`)
  return position
}
