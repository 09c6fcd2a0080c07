// A long history for measurements: lots tested whole, written behind the verbs in few statements. Invented, by a plain formula.
import type postgres from 'postgres'

export type LongHistory = { lots: number; cordsOfLot: number; suppliers: number; items: number }

/** Fills an empty, migrated database as its owner; every sixth supplier is three times as bad as the others. Keys, checks and tallies work as always. */
export async function fillHistory(owner: postgres.Sql, history: LongHistory): Promise<void> {
  const { lots, cordsOfLot, suppliers, items } = history
  await owner`
    insert into people (name, role, password_hash)
    select 'Person ' || g, (array['officer', 'inspector', 'manager']::role[])[g], 'none' from generate_series(1, 3) g`
  await owner`insert into suppliers (name, created_by) select 'Supplier ' || g, 1 from generate_series(1, ${suppliers}) g`
  await owner`
    insert into items (name, category_claimed, cord_limit, length_metres, marginal_policy, crosstalk_accuracy,
      return_loss_accuracy, too_many, catch_of100, cost_test_cents, cost_escape_cents, cost_return_cents, acceptance_quality_limit, created_by)
    select 'Item ' || g, 'Category', 'Limit', 2, 'strict', 1, 1, '5', 95, 130, 8500, 20000, 1.0, 1 from generate_series(1, ${items}) g`
  const atOnce = Math.max(1, Math.floor(25_000 / cordsOfLot))
  for (let from = 1; from <= lots; from += atOnce)
    await fillLots(owner, history, { from, to: Math.min(lots, from + atOnce - 1) })
  await owner`analyze`
}

async function fillLots(
  owner: postgres.Sql,
  { cordsOfLot: N, suppliers, items }: LongHistory,
  part: { from: number; to: number },
) {
  const { from, to } = part
  await owner`
    insert into lots (supplier_id, item_id, announced_size, cartons, cords_in_carton, production_mark, purchase_order, announced_by,
      size, received_by, received_at, state)
    select 1 + g % ${suppliers}::int, 1 + g / ${suppliers}::int % ${items}::int, ${N}::int, 1, ${N}::int, 'mark ' || g, 'order ' || g, 1, ${N}::int, 2, now(), 'drawn'
    from generate_series(${from}::int, ${to}::int) g`
  await owner`
    insert into plans (lot_id, kind, lot_size, sample_size, acceptance_number, stages, too_many, catch_of100, category_claimed, cord_limit,
      marginal_policy, crosstalk_accuracy, return_loss_accuracy, cost_test_cents, cost_escape_cents, cost_return_cents, frozen_by)
    select g, 'every-cord', ${N}::int, ${N}::int, ${N}::int,
      jsonb_build_array(jsonb_build_object('sampleSize', ${N}::int, 'acceptanceNumber', ${N}::int, 'rejectionNumber', ${N}::int + 1)),
      least(5, ${N}::int), 95, 'Category', 'Limit', 'strict', 1, 1, 130, 8500, 20000, 1
    from generate_series(${from}::int, ${to}::int) g`
  await owner`insert into draws (lot_id, seed, method, drawn_by) select g, g::text, 'for a measurement', 2 from generate_series(${from}::int, ${to}::int) g`
  await owner`
    insert into drawn_cords (lot_id, position, purpose, pick, stage)
    select g, p, 'sample', p, 1 from generate_series(${from}::int, ${to}::int) g, generate_series(1, ${N}::int) p`
  await owner`
    insert into results (lot_id, position, kind, crosstalk_margin, return_loss_margin, wire_map, visual, state, nonconforming, spool, recorded_by)
    select g, p, 'tested', case when short then -1 else 3 + (p % 40) / 10.0 end, 4 - (p % 9) / 10.0, 'in-order', 'in-order',
      case when short then 'does-not-conform'::cord_state else 'conforms' end, short, 'W' || p / 50, 2
    from generate_series(${from}::int, ${to}::int) g, generate_series(1, ${N}::int) p,
      lateral (select (g * 7919 + p * 104729) % 1000 < case when g % ${suppliers}::int % 6 = 0 then 24 else 8 end as short) made`
  await owner`
    insert into decisions (lot_id, after, outcome, verdict, reason, recorded, found, upper_bound_in_lot, evidence, duties_separated, decided_by, decided_at)
    select lot_id, 'sample', 'accepted', 'accept', '', sample_recorded, sample_nonconforming, sample_nonconforming, '{}', true, 3,
      now() - interval '1 hour' + lot_id * interval '1 millisecond'
    from tallies where lot_id between ${from}::int and ${to}::int`
  await owner`update lots set state = 'accepted' where id between ${from}::int and ${to}::int`
}
