// The entries of a lot as a signature saw them, read in slices: each a line of the format, made by the database.
import { type SQL, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import type { EvidenceColumn } from './format.ts'

/** Which entries: those of the lot's versions up to one. `lastPick` leaves out the cords that a screening added. */
export type AsOf = { lotId: number; lotVersion: number; lastPick: number | undefined }

export type Slice = { count: number; last: number; lines: string; nonconforming: number[]; recorders: number[] }

/** The rows after a position, so many at most; undefined where none follow. */
export async function sliceOf(
  db: Db | Tx,
  asOf: AsOf,
  names: readonly EvidenceColumn[],
  { after, atMost }: { after: number; atMost: number },
): Promise<Slice | undefined> {
  const cellsInOrder = sql.join(
    names.map((name) => sql`${cells[name]}::text`),
    sql`, `,
  )
  const [slice] = await db.execute<Slice>(sql`
    select count(*)::int as count, max(position) as last, string_agg(line, '' order by position) as lines,
      coalesce(array_agg(position order by position) filter (where nonconforming), '{}') as nonconforming,
      array_agg(distinct recorded_by) as recorders
    from (
      select d.position, s.nonconforming, s.recorded_by, array_to_json(array[${cellsInOrder}])::text || E'\\n' as line ${evidenceEntriesOf(asOf, after)} limit ${atMost}
    ) slice`)
  return slice && slice.count > 0 ? slice : undefined
}

/**
 * From-clause of the entries that stood, in the order of positions: the cord as `d`, its entry as `s`. An entry made after
 * the signature gives way to the latest one before it, which corrections keep for ever; a cord without one was not recorded
 * then. A cord whose entry was closed by a stand-in is never corrected again, so every earlier entry counted.
 */
export function evidenceEntriesOf(asOf: AsOf, after: number): SQL {
  const { lotVersion, lastPick } = asOf
  // Entries of a later version are there only after a decision that let the bench go on.
  if (lastPick === undefined)
    return sql`from ${recordedCords(asOf, after)} cross join lateral (select r.*) s order by r.position`
  return sql`
    from ${recordedCords(asOf, after)}
    cross join lateral (
      select r.counts, ${entry('r')} where r.lot_version <= ${lotVersion}
      union all (
        select true, ${entry('e')} from earlier_results e
        where r.lot_version > ${lotVersion} and e.lot_id = r.lot_id and e.position = r.position and e.lot_version <= ${lotVersion}
        order by e.entry desc limit 1)
    ) s
    order by d.position`
}

/** Up to so many picks are fetched by their pick and sorted; more are met on the way through the positions. */
const fewPicks = 5000

/**
 * Cords `d` with their standing entry `r`. The second is looked up by the key of the first, cord by cord, which "limit 1"
 * makes sure of: right after a large draw the database has no statistics of the lot, and the join it then chooses compares
 * every cord with every other (12,000 cords: 3 s).
 */
function recordedCords({ lotId, lastPick }: AsOf, after: number): SQL {
  if (lastPick === undefined)
    return sql`(select * from results where lot_id = ${lotId} and position > ${after}) r
      cross join lateral (select * from drawn_cords c where c.lot_id = r.lot_id and c.position = r.position limit 1) d`
  const fetched = lastPick <= fewPicks ? sql`offset 0` : sql``
  return sql`(select * from drawn_cords where lot_id = ${lotId} and position > ${after} and pick <= ${lastPick} ${fetched}) d
    cross join lateral (select * from results e where e.lot_id = d.lot_id and e.position = d.position limit 1) r`
}

const entryColumns = [
  'kind',
  'state',
  'nonconforming',
  'crosstalk_margin',
  'return_loss_margin',
  'wire_map',
  'visual',
  'note',
  'carton',
  'spool',
  'tester_serial',
  'entry',
  'recorded_by',
  'recorded_at',
]

function entry(table: 'r' | 'e'): SQL {
  return sql.raw(entryColumns.map((column) => `${table}.${column}`).join(', '))
}

const cells: Record<EvidenceColumn, SQL> = {
  position: sql`d.position`,
  purpose: sql`d.purpose`,
  pick: sql`d.pick`,
  standsInFor: sql`d.stands_in_for`,
  counts: sql`s.counts`,
  kind: sql`s.kind`,
  state: sql`s.state`,
  nonconforming: sql`s.nonconforming`,
  crosstalkMargin: sql`s.crosstalk_margin`,
  returnLossMargin: sql`s.return_loss_margin`,
  wireMap: sql`s.wire_map`,
  visual: sql`s.visual`,
  note: sql`s.note`,
  carton: sql`s.carton`,
  spool: sql`s.spool`,
  testerSerial: sql`s.tester_serial`,
  entry: sql`s.entry`,
  recordedBy: sql`s.recorded_by`,
  recordedAt: sql`to_char(s.recorded_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"')`,
}
