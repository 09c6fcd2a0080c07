// The rows of a read file in SQL: those in the way of recording them, and recording them.
import { type SQL, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../../db/client.ts'
import { addBadRow, type BadRows, noBadRows } from './bad-rows.ts'
import type { ReadRows } from './sheet.ts'

/** A part of a file as rows `r`, in the file's order by `n`. Margins pass as text, every digit kept. */
export function rowsOf(part: string): SQL {
  return sql`(
    select n, (v->>0)::int as position, (v->>1)::numeric as crosstalk_margin, (v->>2)::numeric as return_loss_margin,
      (v->>3)::inspection as wire_map, (v->>4)::inspection as visual, (v->>5)::cord_state as state,
      (v->>6)::boolean as nonconforming, v->>7 as carton, v->>8 as spool, v->>9 as tester_serial
    from jsonb_array_elements(${part}::jsonb) with ordinality as e (v, n)) as r`
}

type Found = { position: number; drawn: boolean }

/** Rows for a cord that was not drawn or is recorded already. */
export async function inTheWay(db: Db | Tx, lotId: number, { parts, lines }: ReadRows): Promise<BadRows> {
  const bad = noBadRows()
  for (const part of parts) {
    const found = await db.execute<Found>(sql`
      select r.position, d.position is not null as drawn from ${rowsOf(part)}
      left join drawn_cords d on d.lot_id = ${lotId} and d.position = r.position
      left join results s on s.lot_id = ${lotId} and s.position = r.position
      where d.position is null or s.position is not null order by r.n`)
    for (const { position, drawn } of found)
      addBadRow(bad, lines[position] ?? 0, `Cord ${position} ${drawn ? 'is recorded already' : 'was not drawn'}`)
  }
  return bad
}

/** A statement a part: so many rows that none runs into its time limit, and that others are served between two. */
export async function insertRows(tx: Tx, lotId: number, inspectorId: number, { parts }: ReadRows): Promise<void> {
  for (const part of parts)
    await tx.execute(sql`
      insert into results (lot_id, position, kind, crosstalk_margin, return_loss_margin, wire_map, visual, carton, spool,
        tester_serial, state, nonconforming, recorded_by, recorded_at)
      select ${lotId}::int, r.position, 'tested', r.crosstalk_margin, r.return_loss_margin, r.wire_map, r.visual, r.carton,
        r.spool, r.tester_serial, r.state, r.nonconforming, ${inspectorId}::int, clock_timestamp()
      from ${rowsOf(part)} order by r.n`)
}
