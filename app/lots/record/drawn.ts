// Writes which cords are to be tested. A lot may be a million of them: in parts, so that no statement runs into its time limit.
import { sql } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import type { Stage } from '../../statistics/plans/plan.ts'

const cordsAtOnce = 100_000

/**
 * Keeps a sample in the order drawn, each cord with the number of the stage whose sample it completes. An array literal is
 * one parameter, where a row each would be millions.
 */
export async function keepSample(tx: Tx, lotId: number, positions: number[], stages: readonly Stage[]): Promise<void> {
  const beyond = `{${stages.map(({ sampleSize }) => sampleSize + 1).join(',')}}`
  for (let from = 0; from < positions.length; from += cordsAtOnce) {
    const part = `{${positions.slice(from, from + cordsAtOnce).join(',')}}`
    await tx.execute(sql`insert into drawn_cords (lot_id, position, purpose, pick, stage)
      select ${lotId}::int, drawn.position, 'sample', ${from}::int + drawn.pick,
        1 + width_bucket(${from}::int + drawn.pick::int, ${beyond}::int[])
      from unnest(${part}::int[]) with ordinality as drawn (position, pick)`)
  }
}

/** Adds every cord that was not drawn: the rest of a lot that is screened. */
export async function keepRest(tx: Tx, lotId: number, lotSize: number): Promise<void> {
  for (let from = 1; from <= lotSize; from += cordsAtOnce) {
    const last = Math.min(lotSize, from + cordsAtOnce - 1)
    await tx.execute(sql`insert into drawn_cords (lot_id, position, purpose)
      select ${lotId}::int, rest.position, 'rest' from generate_series(${from}::int, ${last}::int) as rest (position)
      where not exists (select from drawn_cords d where d.lot_id = ${lotId}::int and d.position = rest.position)`)
  }
}
