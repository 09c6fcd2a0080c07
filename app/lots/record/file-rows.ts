// The rows of a read file in SQL: those in the way of recording them, and recording them.
import { type SQL, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { because } from '../../kit/refusal.ts'
import { addBadRow, type BadRows, noBadRows } from '../rules/file/bad-rows.ts'
import type { FilePart, ReadRows } from '../rules/file/sheet.ts'

/**
 * Rows for a cord that was not drawn or is recorded already. Positions are looked for as one array and set against each
 * other by EXCEPT: right after a large draw the database has no statistics of it, and would answer a join by comparing every
 * row with every cord.
 */
export async function inTheWay(db: Db | Tx, lotId: number, file: ReadRows): Promise<BadRows> {
  const bad = noBadRows()
  for (const part of file.parts) {
    const found = await db.execute<{ position: number; drawn: boolean }>(sql`
      (select unnest(${part.positions}::int[]) as position, false as drawn
        except select position, false ${cordsOf(lotId, part)})
      union all select position, true from results
        where lot_id = ${lotId} and position = any (${part.positions}::int[])`)
    for (const { position, drawn } of rowsInOrder(file, found)) {
      const cause = because(drawn ? 'row/recorded-already' : 'cord/not-drawn', { position })
      addBadRow(bad, file.lines[position] ?? 0, cause)
    }
  }
  return bad
}

/** The drawn cords that a part has rows of. */
export function cordsOf(lotId: number, { positions }: FilePart): SQL {
  return sql`from drawn_cords where lot_id = ${lotId} and position = any (${positions}::int[])`
}

/** Cords in the order in which the file has them. */
export function rowsInOrder<T extends { position: number }>({ lines }: ReadRows, cords: readonly T[]): T[] {
  const lineOf = ({ position }: T) => lines[position] ?? 0
  return [...cords].sort((one, other) => lineOf(one) - lineOf(other))
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

/** A part as rows `r`, in the file's order by `n`. Margins pass as text, every digit kept. */
function rowsOf({ rows }: FilePart): SQL {
  return sql`(
    select n, (v->>0)::int as position, (v->>1)::numeric as crosstalk_margin, (v->>2)::numeric as return_loss_margin,
      (v->>3)::inspection as wire_map, (v->>4)::inspection as visual, (v->>5)::cord_state as state,
      (v->>6)::boolean as nonconforming, v->>7 as carton, v->>8 as spool, v->>9 as tester_serial
    from jsonb_array_elements(${rows}::jsonb) with ordinality as e (v, n)) as r`
}
