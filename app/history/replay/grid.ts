// One lot as it was, cord by cord, with one sample by a percentage laid over it.

import { asc, eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { results } from '../../../db/schema/results.ts'
import { Refusal } from '../../kit/refusal.ts'
import { machineSha256 } from '../../kit/sha256.ts'
import { drawUnits } from '../../statistics/draw.ts'
import type { CordState } from '../../terms/cord.ts'
import { percentageOf } from './percent.ts'

export type ReplayedGrid = {
  lotId: number
  size: number
  cordsInCarton: number
  percent: string
  seed: string
  /** one a cord, position 1 first */
  states: (CordState | 'not-tested')[]
  /** cords that count as nonconforming by the lot's own terms */
  nonconforming: number
  /** positions of one sample by the percentage, drawn from the seed, in walking order */
  sample: number[]
  foundInSample: number
}

/** A lot of which every cord has a result; another seed draws another sample. Throws Refusal where some cord has none. */
export async function lotGrid(
  db: Db,
  lotId: number,
  { percent, seed }: { percent: string; seed: string },
): Promise<ReplayedGrid> {
  const [lot] = await db.select().from(lots).where(eq(lots.id, lotId))
  if (!lot) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  const cords = await db
    .select({ position: results.position, state: results.state, nonconforming: results.nonconforming })
    .from(results)
    .where(eq(results.lotId, lotId))
    .orderBy(asc(results.position))
  if (cords.length !== lot.size) throw new Refusal('conflict', 'percentage/not-all-tested', { lot: lotId })

  const picked = drawUnits({ lotSize: lot.size, sampleSize: percentageOf(lot.size, percent), seed }, machineSha256)
  const inSample = new Set(picked)
  const nonconforming = cords.filter((cord) => cord.nonconforming)
  return {
    lotId,
    size: lot.size,
    cordsInCarton: lot.cordsInCarton,
    percent,
    seed,
    states: cords.map((cord) => cord.state),
    nonconforming: nonconforming.length,
    sample: picked.toSorted((a, b) => a - b),
    foundInSample: nonconforming.filter((cord) => inSample.has(cord.position)).length,
  }
}
