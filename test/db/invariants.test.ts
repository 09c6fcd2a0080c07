// The record's own rules, asked of the database: kept by a whole job, and each one found when it is broken behind the verbs.
import { describe, expect, test } from 'vitest'
import { brokenInvariants, invariants } from '../../db/invariants.ts'
import { plantExample } from '../../seed/example.ts'
import { freshDatabase } from '../support/database.ts'

const { owner, ownerDb } = await freshDatabase()
await plantExample(ownerDb)

/** A change that only somebody with the owner's rights and the triggers off could make, for each rule. */
const breaches: Record<string, string> = {
  'A result of the sample is recorded before the sample is decided on':
    "update results set recorded_at = now() + interval '1 year' where lot_id = (select min(lot_id) from decisions)",
  'A lot in a decided state has its decision': 'delete from decisions',
  'A lot before its decision has none':
    "update lots set state = 'drawn' where id = (select min(lot_id) from decisions)",
  'A lot has a plan from the moment it is planned': 'delete from plans where lot_id = (select min(lot_id) from plans)',
  'A lot has a draw from the moment it is drawn':
    "update lots set state = 'planned' where id = (select min(lot_id) from draws)",
  'As many cords are drawn as the plan says': 'update plans set sample_size = sample_size - 1',
  'A plan is for the counted size': 'update plans set lot_size = lot_size + 1',
  'A lot’s tally is the sum of its results': 'update tallies set sample_recorded = sample_recorded + 1',
  'A first fetch’s counts are those of the picks that the standard’s plan asks for, a stand-in in the place of its pick':
    'update tallies set first_fetch_recorded = first_fetch_recorded + 1',
  'A lot’s tally counts its stand-ins': 'update tallies set stand_ins = stand_ins + 1',
  'A lot that was here before names one that went back, of the same supplier and item, and was resubmitted once':
    "update lots set replacement_of = (select min(id) from lots where state = 'accepted') where id = (select max(id) from lots)",
  'The counts of a series are the sums of its decisions, those on resubmitted lots left out':
    'update series_counts set found = found + 1',
  'A spool’s tally is the sum of its results': 'update spool_tallies set nonconforming = nonconforming + 1',
  'The audit tells of every result, recorded or imported': "delete from audit where action = 'cords.imported'",
  'Every correction keeps the entry before it, and the audit tells of it': 'update results set entry = entry + 1',
  'A cord that another stands in for does not count':
    "update drawn_cords set purpose = 'stand-in', allowed_by = 1, stands_in_for = (select min(position) from results r where r.lot_id = drawn_cords.lot_id) where (lot_id, position) = (select lot_id, max(position) from results group by 1 order by 1 limit 1)",
  'A result that does not count is undecided, or replaced, or its place is empty': 'update results set counts = false',
  'A cord that is gone or spoiled here counts nowhere only as long as nobody has ruled, or as it was ruled':
    "insert into rulings (lot_id, position, ruling, reason, recorded, found, undecided, duties_separated, ruled_by) select lot_id, position, 'reserve', 'x', 0, 0, 0, true, 1 from results limit 1",
  'A cord is undecided only while the sample is tested, or its lot went back or was withdrawn':
    "update results set kind = 'gone', state = 'not-tested', nonconforming = true, note = 'x', crosstalk_margin = null, return_loss_margin = null, counts = false, undecided = true where (lot_id, position) = (select lot_id, min(position) from results join lots on id = lot_id where lots.state = 'accepted' group by 1 limit 1)",
  'Nothing but a return of a rejected lot is signed while a cord is undecided':
    "update results set kind = 'gone', state = 'not-tested', nonconforming = true, note = 'x', crosstalk_margin = null, return_loss_margin = null, counts = false, undecided = true where (lot_id, position) = (select lot_id, min(position) from results join lots on id = lot_id where lots.state = 'accepted' group by 1 limit 1)",
  'An empty place has its recount, and a recount its empty place':
    "insert into recounts (lot_id, position, size, reason, counted_by) select lot_id, position, 1, 'x', 1 from results limit 1",
  'A lot has no more cords after a recount than places that are not empty':
    "insert into recounts (lot_id, position, size, reason, counted_by) select lot_id, position, 1000000, 'x', 1 from results limit 1",
  'The audit tells of each ruling and each recount':
    "insert into recounts (lot_id, position, size, reason, counted_by) select lot_id, position, 1, 'x', 1 from results limit 1",
  'Who recorded results of a lot did not decide on it':
    'update results set recorded_by = (select decided_by from decisions limit 1)',
  'A decision after one sample counted what was recorded': 'update decisions set recorded = recorded + 1',
  'A decision’s evidence counts the entries that stood at the lot’s version it was signed at':
    'update results set lot_version = 1000000 where lot_id = (select min(lot_id) from decisions)',
  'No plan of one sample accepts before the sample is whole':
    "update decisions set recorded = 0 where verdict = 'accept'",
  'The audit tells of each decision once': "delete from audit where action = 'lot.accepted'",
  'The audit tells of each lot, plan and draw once': "delete from audit where action = 'lot.drawn'",
  'A plan that froze by itself has the rule that was chosen before, and nothing held it up':
    'update plans set chosen_by = frozen_by',
  'The audit tells of every rule':
    "insert into plan_rules (lot_id, kind, item_id, item_version, chosen_by) select id, 'every-cord', item_id, 1, 1 from lots limit 1",
  'Somebody can decide and add people, once anybody is there': 'update people set active = false',
  'Nobody who left has an open session': 'update people set active = false',
}

describe('the record', () => {
  test('keeps every rule after the whole example', async () => {
    expect(await brokenInvariants(owner)).toEqual([])
  })

  test('has no rule that this table forgets', () => {
    expect(invariants.map(({ name }) => name.replaceAll("'", '’')).sort()).toEqual(Object.keys(breaches).sort())
  })

  test.each(Object.entries(breaches))('is found out: %s', async (name, breach) => {
    await owner
      .begin(async (tx) => {
        await tx`set local session_replication_role = replica`
        for (const table of await tx<
          { table: string; check: string }[]
        >`select conrelid::regclass::text as table, conname as check
        from pg_constraint where contype = 'c' and connamespace = 'public'::regnamespace`)
          await tx.unsafe(`alter table ${table.table} drop constraint "${table.check}"`)
        await tx`insert into sessions (token_hash, person_id, expires_at) select 'one', min(id), now() from people`
        await tx.unsafe(breach)
        const rule = invariants.find((one) => one.name.replaceAll("'", '’') === name)
        const [row] = await tx.unsafe(`select (${rule?.sql.replace(/;\s*$/, '')})::int as broken`)
        expect(row?.broken).toBeGreaterThan(0)
        throw new Undone()
      })
      .catch((error: unknown) => {
        if (!(error instanceof Undone)) throw error
      })
  })
})

class Undone extends Error {}
