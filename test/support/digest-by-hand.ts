// The digest of a lot's rows made anew from the owner's tables and the sentence of the method, with nothing of the service in it.
import { createHash } from 'node:crypto'
import type postgres from 'postgres'

const heading =
  '["position","purpose","pick","standsInFor","counts","kind","state","nonconforming","crosstalkMargin","returnLossMargin","wireMap","visual","note","carton","spool","testerSerial","entry","recordedBy","recordedAt"]'

/** Of the entries that stand now. */
export async function digestByHand(owner: postgres.Sql, lotId: number): Promise<string> {
  const rows = await owner`
    select d.position, d.purpose, d.pick, d.stands_in_for, r.counts, r.kind, r.state, r.nonconforming, r.crosstalk_margin, r.return_loss_margin,
      r.wire_map, r.visual, r.note, r.carton, r.spool, r.tester_serial, r.entry, r.recorded_by,
      (extract(epoch from r.recorded_at) * 1000000)::bigint::text as microseconds
    from results r, drawn_cords d where r.lot_id = ${lotId} and d.lot_id = r.lot_id and d.position = r.position`
  const lines = rows
    .sort((a, b) => a.position - b.position)
    .map(({ microseconds, ...cells }) => [...Object.values(cells), moment(BigInt(microseconds))])
    .map((cells) => JSON.stringify(cells.map((cell) => (cell === null ? null : String(cell)))))
  return createHash('sha256')
    .update([heading, ...lines].map((line) => `${line}\n`).join(''))
    .digest('hex')
}

function moment(microseconds: bigint): string {
  const seconds = new Date(Number(microseconds / 1000n)).toISOString().slice(0, 19)
  return `${seconds}.${String(microseconds % 1_000_000n).padStart(6, '0')}Z`
}
