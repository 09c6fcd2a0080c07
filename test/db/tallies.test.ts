// The sums that the database keeps are those of a recount, whatever is written of many lots at once.
import type postgres from 'postgres'
import { expect, test } from 'vitest'
import { invariants } from '../../db/invariants.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const size = 60
const terms = { acceptanceQualityLimit: '10' } // a first fetch of 13: MIL-STD-105E, Tables I and II-A, read: letter E
const lots = [
  await drawnLot(db, three, { size, plan: { kind: 'single', sampleSize: 30, acceptanceNumber: 1 }, terms }),
  await drawnLot(db, three, { size, plan: { kind: 'single', sampleSize: 30, acceptanceNumber: 1 }, terms }),
]
await owner`
  insert into drawn_cords (lot_id, position, purpose)
  select lot, position, 'rest' from unnest(${lots}::int[]) lot, generate_series(1, ${size}::int) position on conflict do nothing`

/** Of the lots' tallies, their first fetches' and their spools', how many are not their recount. The recount is written apart from the triggers: in db/invariants.sql. */
async function wrong(sql: postgres.TransactionSql): Promise<number[]> {
  const rules = invariants.filter(({ name }) => /tally is the sum|first fetch's counts/.test(name))
  const counts = await Promise.all(rules.map((rule) => sql.unsafe(rule.sql)))
  return counts.map(([row]) => Number(row?.count))
}

/** Everything that an entry may be, drawn by the database itself from the seed that the test sets. */
const anything = `
  case when random() < 0.8 then 'tested' when random() < 0.5 then 'missing' else 'untestable' end::result_kind as kind,
  random() as a, random() as b, random() as c, random() as d, random() as e`
const columns = `kind,
  case when kind = 'tested' then round((a * 8 - 2)::numeric, 2) end as crosstalk_margin,
  case when kind = 'tested' then round((b * 8 - 2)::numeric, 2) end as return_loss_margin,
  case when kind = 'tested' then case when c < 0.1 then 'at-fault' else 'in-order' end end::inspection as wire_map,
  case when kind = 'tested' then case when d < 0.1 then 'at-fault' else 'in-order' end end::inspection as visual,
  case when kind = 'tested' then case when a < 0.25 or b < 0.25 or c < 0.1 or d < 0.1 then 'does-not-conform' when e < 0.3 then 'marginal' else 'conforms' end
    else 'not-tested' end::cord_state as state,
  kind <> 'tested' or a < 0.25 or b < 0.25 or c < 0.1 or d < 0.1 as nonconforming,
  case when kind <> 'tested' then 'gone' end as note, case when e < 0.5 then 'spool ' || floor(e * 8) end as spool`

test('a lot moves with its own latest entry, not with those of another lot', async () => {
  await owner
    .begin(async (sql) => {
      await sql`alter table results disable trigger results_while_tested`
      await sql`update lots set moved_at = '2031-01-01' where id = any(${lots}::int[])`
      await sql.unsafe(
        `insert into results (lot_id, position, ${names}, recorded_by, recorded_at)
      select lot_id, position, ${columns}, ${three.inspector.id}, timestamptz '2032-01-01' + lot_id * interval '1 day' + pick * interval '1 second'
      from (select lot_id, position, pick, ${anything} from drawn_cords where purpose = 'sample' and pick <= 3) drawn`,
      )
      const moved = await sql`
      select lot.moved_at, max(r.recorded_at) as at from lots lot join results r on r.lot_id = lot.id
      where lot.id = any(${lots}::int[]) group by lot.id order by lot.id`
      expect(moved).toHaveLength(2)
      for (const { moved_at, at } of moved) expect(moved_at).toEqual(at)
      expect(moved[0]?.at).not.toEqual(moved[1]?.at)
      throw new Undone()
    })
    .catch((error: unknown) => {
      if (!(error instanceof Undone)) throw error
    })
})

class Undone extends Error {}

test('rows of two lots in one statement, one by one, changed and struck out', async () => {
  await owner.begin(async (sql) => {
    await sql`select setseed(0.42)`
    await sql`alter table results disable trigger results_while_tested`
    for (const share of [0.1, 0.3, 0.5, 1]) {
      await sql.unsafe(`insert into results (lot_id, position, ${names}, recorded_by)
      select lot_id, position, ${columns}, ${three.inspector.id}
      from (select lot_id, position, ${anything} from drawn_cords where random() < ${share}) drawn on conflict do nothing`)
      expect(await wrong(sql)).toEqual([0, 0, 0])
      await sql.unsafe(`update results r set (${names}, entry) = (select ${columns}, r.entry + 1 from (select ${anything}, r.position) new)
      where counts and random() < 0.3`)
      expect(await wrong(sql)).toEqual([0, 0, 0])
      await sql`update results set counts = false where kind <> 'tested' and random() < 0.3`
      expect(await wrong(sql)).toEqual([0, 0, 0])
      await sql`update results set counts = true where random() < 0.3`
      expect(await wrong(sql)).toEqual([0, 0, 0])
    }
    await sql`update results set counts = true`
    expect(await wrong(sql)).toEqual([0, 0, 0])
    const [kept] = await sql`select * from tallies where lot_id = ${lots[0] ?? 0}`
    expect(kept).toMatchObject({ sample_recorded: 30, rest_recorded: 30, first_fetch_recorded: 13 }) // 30 drawn of 60, and the rest
  })
})

const names = 'kind, crosstalk_margin, return_loss_margin, wire_map, visual, state, nonconforming, note, spool'
