// A file of results, recorded whole or not at all.
import { createHash } from 'node:crypto'
import { sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { record } from '../../audit/record.ts'
import { once } from '../../people/once.ts'
import { type Person, requireRole } from '../../people/person.ts'
import { requireStanding } from '../../people/standing.ts'
import { lockLot, requireState } from '../lock.ts'
import { statesFor } from '../rules/lifecycle.ts'
import { type Judged, judgedBy } from './judged.ts'
import { type BadRow, type FileRow, readResultsFile } from './results-file.ts'
import { columnsOf } from './row.ts'
import { outOfStage } from './stages.ts'
import { type FrozenPlan, moveOn, planOf } from './testing.ts'

export type Imported = { kind: 'recorded'; count: number } | { kind: 'refused'; rows: BadRow[] }

/**
 * Records every row of a results file, or none: then each row that is in the way is named with its line and reason.
 * The same file under the same key is answered with the count of the first time; a refused one leaves the key free.
 */
export async function recordFile(
  db: Db,
  inspector: Person,
  lotId: number,
  { key, text }: { key: string; text: string },
): Promise<Imported> {
  requireRole(inspector, 'inspector', 'record results')
  const file = readResultsFile(text)
  const sha256 = createHash('sha256').update(text).digest('hex')
  const sent = { key, person: inspector, act: 'cords.imported', subject: `lot/${lotId}`, input: { sha256 } }
  return db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'inspector', 'record results')
    const lot = await lockLot(tx, lotId)
    let rows: BadRow[] = []
    const { made } = await once(tx, sent, async () => {
      requireState(lot, statesFor('record'), 'tested')
      rows = [...file.bad, ...(await inTheWay(tx, lotId, file.rows))].sort((a, b) => a.line - b.line)
      if (rows.length > 0) return undefined

      const plan = await planOf(tx, lotId)
      const judged = file.rows.map((row) => ({ ...row, ...judgedBy(row.entry, plan) }))
      rows = (await outOfStage(tx, lot, plan, judged)).map(({ cord, reason }) => ({ line: cord.line, reason }))
      if (rows.length > 0) return undefined

      await insertRows(tx, inspector, plan, judged)
      const count = file.rows.length
      await record(tx, inspector, sent.act, sent.subject, { count, sha256 })
      await moveOn(tx, inspector, lot)
      return count
    })
    return made === undefined ? { kind: 'refused', rows } : { kind: 'recorded', count: made }
  })
}

type Drawn = { position: number; recorded: boolean }

/** Rows for a cord that was not drawn or is recorded already. */
async function inTheWay(tx: Tx, lotId: number, rows: FileRow[]): Promise<BadRow[]> {
  const positions = `{${rows.map((row) => row.position).join(',')}}`
  const drawn = await tx.execute<Drawn>(sql`
    select d.position, r.position is not null as recorded
    from drawn_cords d left join results r on r.lot_id = d.lot_id and r.position = d.position
    where d.lot_id = ${lotId} and d.position = any (${positions}::int[])`)
  const recorded = new Map(drawn.map((cord) => [cord.position, cord.recorded]))
  return rows.flatMap(({ line, position }) => {
    const found = recorded.get(position)
    if (found === undefined) return [{ line, reason: `Cord ${position} was not drawn` }]
    return found ? [{ line, reason: `Cord ${position} is recorded already` }] : []
  })
}

type JudgedRow = FileRow & Judged

/** So many that no statement runs into its time limit. */
const rowsAtOnce = 20_000

/** One parameter for all rows of a part: a value each would be hundreds of thousands. Margins pass as text, every digit kept. */
async function insertRows(tx: Tx, inspector: Person, plan: FrozenPlan, rows: JudgedRow[]): Promise<void> {
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    const part = rows
      .slice(from, from + rowsAtOnce)
      .map((row) => ({ position: row.position, ...columnsOf(row.entry, row) }))
    await tx.execute(sql`
      insert into results (lot_id, position, kind, crosstalk_margin, return_loss_margin, wire_map, visual, note, carton,
        spool, tester_serial, state, nonconforming, recorded_by, recorded_at)
      select ${plan.lotId}::int, r.position, r.kind, r."crosstalkMargin"::numeric, r."returnLossMargin"::numeric,
        r."wireMap", r.visual, r.note, r.carton, r.spool, r."testerSerial", r.state, r.nonconforming,
        ${inspector.id}::int, clock_timestamp()
      from jsonb_to_recordset(${JSON.stringify(part)}::jsonb) as r (position int, kind result_kind,
        "crosstalkMargin" text, "returnLossMargin" text, "wireMap" inspection, visual inspection, note text,
        carton text, spool text, "testerSerial" text, state cord_state, nonconforming boolean)`)
  }
}
