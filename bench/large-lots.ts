// Lots of a million cords for measurements, written by SQL as the owner. Invented, by a plain formula; triggers and tallies work as always.
import type postgres from 'postgres'

const cordsAtOnce = 50_000

export type LargeLot = {
  size: number
  /** cords of the frozen plan: all of them, or a sample of which the first are drawn by a stride through the lot */
  sampleSize: number
  /** one cord in so many does not conform */
  oneIn: number
}

/** Suppliers, items and whoever is named in the lots; the people are there already, in the order of their roles. */
export async function fillRegister(owner: postgres.Sql): Promise<void> {
  await owner`insert into suppliers (name, created_by) values ('Supplier', 1)`
  await owner`
    insert into items (name, category_claimed, cord_limit, length_metres, marginal_policy, crosstalk_accuracy,
      return_loss_accuracy, too_many, catch_of100, cost_test_cents, cost_escape_cents, cost_return_cents, acceptance_quality_limit, created_by)
    values ('Item', 'Category', 'Limit', 2, 'strict', 1.2, 1.5, '1%', 95, 130, 8500, 20000, 1.0, 1)`
}

/** A drawn lot whose whole sample is recorded. Returns its number. */
export async function fillLargeLot(owner: postgres.Sql, { size, sampleSize, oneIn }: LargeLot): Promise<number> {
  const id = await fillDrawnLot(owner, { size, sampleSize })
  await recordOpenCords(owner, id, { size, oneIn })
  return id
}

/** The same without any result. */
export async function fillDrawnLot(
  owner: postgres.Sql,
  { size, sampleSize }: Pick<LargeLot, 'size' | 'sampleSize'>,
): Promise<number> {
  const everyCord = sampleSize === size
  const [lot] = await owner<{ id: number }[]>`
    insert into lots (supplier_id, item_id, announced_size, cartons, cords_in_carton, production_mark, purchase_order, announced_by,
      size, received_by, received_at, state)
    values (1, 1, ${size}, ${Math.ceil(size / 40)}, 40, 'W31', 'PO 7', 1, ${size}, 2, now(), 'drawn') returning id`
  const id = lot?.id ?? 0
  const acceptanceNumber = everyCord ? size : 0
  await owner`
    insert into plans (lot_id, kind, lot_size, sample_size, acceptance_number, stages, too_many, catch_of100, category_claimed, cord_limit,
      marginal_policy, crosstalk_accuracy, return_loss_accuracy, cost_test_cents, cost_escape_cents, cost_return_cents, frozen_by)
    values (${id}, ${everyCord ? 'every-cord' : 'single'}, ${size}, ${sampleSize}, ${acceptanceNumber},
      jsonb_build_array(jsonb_build_object('sampleSize', ${sampleSize}::int, 'acceptanceNumber', ${acceptanceNumber}::int,
        'rejectionNumber', ${acceptanceNumber}::int + 1)),
      ${size / 100}, 95, 'Category', 'Limit', 'strict', 1.2, 1.5, 130, 8500, 20000, 1)`
  await owner`insert into draws (lot_id, seed, method, drawn_by) values (${id}, '271828182845904523536028', 'for a measurement', 2)`
  const stride = size / sampleSize
  for (let from = 1; from <= sampleSize; from += cordsAtOnce)
    await owner`
      insert into drawn_cords (lot_id, position, purpose, pick, stage)
      select ${id}::int, pick * ${stride}::int, 'sample', pick, 1
      from generate_series(${from}::int, least(${from}::int + ${cordsAtOnce}::int - 1, ${sampleSize}::int)) as pick`
  return id
}

/** Records every drawn cord that has no entry yet, with marks of ordinary length. */
export async function recordOpenCords(
  owner: postgres.Sql,
  lotId: number,
  { size, oneIn }: { size: number; oneIn: number },
): Promise<void> {
  for (let after = 0; after < size; after += cordsAtOnce)
    await owner`
      insert into results (lot_id, position, kind, crosstalk_margin, return_loss_margin, wire_map, visual, state, nonconforming,
        carton, spool, tester_serial, recorded_by, recorded_at)
      select d.lot_id, d.position, 'tested', case when short then -0.31 else 3 + (d.position % 400) / 100.0 end, 4 - (d.position % 90) / 100.0,
        'in-order', 'in-order', case when short then 'does-not-conform'::cord_state else 'conforms' end, short,
        'CARTON-2027-W31-' || lpad((d.position / 40)::text, 16, '0'), 'SPOOL-2027-W31-' || lpad((d.position / 5000)::text, 16, '0'),
        'TESTER-SERIAL-0004711-08', 2, clock_timestamp()
      from drawn_cords d cross join lateral (select (d.position * 7919::bigint) % ${oneIn}::int = 0 as short) made
      where d.lot_id = ${lotId} and d.position > ${after} and d.position <= ${after + cordsAtOnce}
      on conflict do nothing`
}
