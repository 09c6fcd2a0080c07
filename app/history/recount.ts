// Stored counts held against a recount: the tallies of lots a slice at a time, and what the decisions of each series add up to.
import { sql } from 'drizzle-orm'
import type { Tx } from '../../db/client.ts'

const lotsAtOnce = 200

/**
 * A recount that goes through all lots, a slice a call, and then through the series. Each call returns whether more is left.
 * A count that differs is an Error that names it: the counts are kept by triggers, so it is a fault and nothing to mend quietly.
 */
export function recount(): (tx: Tx) => Promise<boolean> {
  let after = 0
  return async (tx) => {
    const slice = await recountLots(tx, after)
    after = slice.last ?? 0
    if (slice.differing.length > 0) throw new Error(`the tally of lot ${slice.differing.join(', ')} is not its recount`)
    if (slice.last !== undefined) return true
    const series = await differingSeries(tx)
    if (series.length > 0) throw new Error(`the counts of series ${series.join(', ')} are not their recount`)
    return false
  }
}

/** The next lots that have a tally: the last of them, undefined after the end, and those of which the tally is wrong. */
async function recountLots(tx: Tx, after: number): Promise<{ last: number | undefined; differing: number[] }> {
  const rows = await tx.execute<{ lot: number; alike: boolean }>(sql`
    select t.lot_id as lot, (t.sample_recorded, t.sample_nonconforming, t.rest_recorded, t.rest_nonconforming, t.not_tested, t.stand_ins,
        t.undecided, t.replaced, t.no_cord,
        t.first_fetch_recorded, t.first_fetch_found)
      is not distinct from (r.sample, r.sample_found, r.rest, r.rest_found, r.untested, r.stand_ins, r.undecided, r.replaced, r.no_cord, r.first_fetch, r.first_fetch_found) as alike
    from (select * from tallies where lot_id > ${after}::int order by lot_id limit ${lotsAtOnce}::int) t
    cross join lateral (
      select count(*) filter (where r.counts and c.purpose <> 'rest') as sample,
        count(*) filter (where r.counts and c.purpose <> 'rest' and r.nonconforming) as sample_found,
        count(*) filter (where r.counts and c.purpose = 'rest') as rest,
        count(*) filter (where r.counts and c.purpose = 'rest' and r.nonconforming) as rest_found,
        count(*) filter (where r.counts and r.kind not in ('tested', 'damaged')) as untested,
        count(*) filter (where r.undecided) as undecided,
        count(*) filter (where not (r.counts or r.undecided or r.kind = 'no-cord')) as replaced,
        count(*) filter (where r.kind = 'no-cord') as no_cord,
        count(*) filter (where c.stands_in_for is not null) as stand_ins,
        count(*) filter (where r.counts and coalesce(c.takes_pick, c.pick) <= p.standard_sample_size) as first_fetch,
        count(*) filter (where r.counts and coalesce(c.takes_pick, c.pick) <= p.standard_sample_size and r.nonconforming) as first_fetch_found
      from drawn_cords c left join results r on r.lot_id = c.lot_id and r.position = c.position left join plans p on p.lot_id = c.lot_id
      where c.lot_id = t.lot_id
    ) r order by t.lot_id`)
  return { last: rows.at(-1)?.lot, differing: rows.filter(({ alike }) => !alike).map(({ lot }) => lot) }
}

async function differingSeries(tx: Tx): Promise<string[]> {
  const rows = await tx.execute<{ series: string }>(sql`
    select supplier_id || '/' || item_id as series from (
      select l.supplier_id, l.item_id, count(*) filter (where d.after = 'sample' and l.resubmission_of is null) as lots,
        coalesce(sum(d.recorded) filter (where d.after = 'sample' and l.resubmission_of is null), 0) as recorded,
        coalesce(sum(d.found) filter (where d.after = 'sample' and l.resubmission_of is null), 0) as found,
        count(*) filter (where d.after = 'screening') as closed
      from decisions d join lots l on l.id = d.lot_id group by 1, 2
    ) counted full join series_counts kept using (supplier_id, item_id)
    where (kept.lots, kept.recorded, kept.found, kept.closed) is distinct from (counted.lots, counted.recorded, counted.found, counted.closed)
    order by 1`)
  return rows.map(({ series }) => series)
}
