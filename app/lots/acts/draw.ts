// The random draw of a lot: made once, from a seed that is recorded with it.
import { randomInt } from 'node:crypto'
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { plans } from '../../../db/schema/lots.ts'
import { draws } from '../../../db/schema/results.ts'
import { record } from '../../audit/record.ts'
import { machineSha256 } from '../../kit/sha256.ts'
import { requireStanding } from '../../people/standing.ts'
import { drawMethod, drawUnits } from '../../statistics/draw.ts'
import type { Person } from '../../terms/person.ts'
import { keepSample } from '../record/drawn.ts'
import { changeLot, lockLot, requireState } from '../record/lock.ts'
import { stateAfter } from '../rules/lifecycle.ts'

/**
 * Draws the sample of a planned lot. The seed is made by the system's random source after the plan is frozen, so neither
 * who chose the plan nor who tests can steer it; a second draw is refused for ever.
 * A plan of several stages is drawn at once for all of them: the first picks are its first stage.
 *
 * @param newSeed where the seed comes from; only the example lots bring one of their own
 */
export async function drawLot(
  db: Db,
  inspector: Person,
  lotId: number,
  newSeed: () => string = randomSeed,
): Promise<void> {
  await db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'draw-sample')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'draw')
    const [plan] = await tx.select().from(plans).where(eq(plans.lotId, lotId))
    if (!plan) throw new Error(`lot ${lotId} is planned and has no plan`)
    const { lotSize, sampleSize, stages } = plan
    const seed = newSeed()
    await tx.insert(draws).values({ lotId, seed, method: drawMethod, drawnBy: inspector.id })
    await keepSample(tx, lotId, drawUnits({ lotSize, sampleSize, seed }, machineSha256), stages)
    await changeLot(tx, lot, { state: stateAfter('draw', lot.state) })
    await record(tx, inspector, 'lot.drawn', `lot/${lotId}`, { seed, lotSize, sampleSize, method: drawMethod })
  })
}

/** 30 decimal digits: a number that a person can read out and type, with close to 100 bits. */
function randomSeed(): string {
  return Array.from({ length: 30 }, () => randomInt(10)).join('')
}
