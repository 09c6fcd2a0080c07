// What the service's own login is refused by the database itself, whatever statement it sends.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { freshDatabase } from '../support/database.ts'
import {
  announcedLot,
  clear,
  drawnLot,
  failing,
  plannedLot,
  receivedLot,
  signature,
  testedLot,
  toTest,
} from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { asService } from '../support/service-login.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const lot = { announced: 0, received: 0, planned: 0, drawn: 0, accepted: 0 }

beforeAll(async () => {
  lot.announced = await announcedLot(db, three)
  lot.received = await receivedLot(db, three)
  lot.planned = await plannedLot(db, three)
  lot.drawn = await drawnLot(db, three)
  const [position = 0] = await toTest(db, lot.drawn)
  await recordResult(db, three.inspector, lot.drawn, { key: randomUUID(), position, ...failing })
  lot.accepted = await testedLot(db, three, 0)
  await decideLot(db, three.manager, lot.accepted, { ...(await signature(db, lot.accepted)), outcome: 'accepted' })
})

/** $announced … stand for the number of a lot in that state. */
const filled = (statement: string) =>
  statement.replace(/\$(\w+)/g, (_, state: keyof typeof lot) => String(lot[state] ?? `$${state}`))

const send = (...statements: string[]) =>
  asService(owner, async (sql) => {
    for (const statement of statements) await sql.unsafe(filled(statement))
  })

/** Everything of the lots and their papers, to the microsecond. */
const everything = async () => {
  const [row] = await owner<{ digest: string }[]>`select md5(string_agg(row, ';')) as digest from (
    select to_jsonb(l)::text as row from lots l union all select to_jsonb(p)::text from plans p
    union all select to_jsonb(d)::text from draws d union all select to_jsonb(c)::text from drawn_cords c
    union all select to_jsonb(r)::text from results r union all select to_jsonb(e)::text from earlier_results e
    union all select to_jsonb(n)::text from decisions n union all select to_jsonb(a)::text from audit a
    union all select to_jsonb(f)::text from firms f order by 1) all_rows`
  return row?.digest
}

const better = `crosstalk_margin = 9.9, return_loss_margin = 9.9, state = 'conforms', nonconforming = false`
const correction = (change: string) => `insert into earlier_results
  select (jsonb_populate_record(null::public.earlier_results, to_jsonb(r) || '{"corrected_by": 2, "correction_reason": "typed wrongly"}' ${change})).*
  from results r where lot_id = $drawn`
/** A copy of the accepted lot's decision, for another lot. */
const decision = (of: object) => `insert into decisions
  select (jsonb_populate_record(null::public.decisions, to_jsonb(d) || '${JSON.stringify(of)}')).* from public.decisions d where lot_id = $accepted`
/** A drawn cord of which nothing is recorded. */
const untouched = `drawn_cords d
  where lot_id = $drawn and not exists (select from results r where r.lot_id = d.lot_id and r.position = d.position) limit 1`
/** A cord's first entry without readings, with more columns than it begins with. */
const first = (
  kind: string,
  more = '',
  values = '',
) => `insert into results (lot_id, position, kind, note, state, nonconforming, recorded_by${more})
  select lot_id, position, '${kind}', 'x', 'not-tested', true, 2${values} from ${untouched}`
const ruled = `insert into rulings (lot_id, position, ruling, reason, recorded, found, undecided, duties_separated, ruled_by)
  select lot_id, position, 'reserve', 'x', 0, 0, 0, true, 3 from results where lot_id = $drawn`
const recountTo = (size: number) => `insert into recounts (lot_id, position, size, reason, counted_by)
  select lot_id, position, ${size}, 'x', 2 from ${untouched}`
const notAllowed = '42501'

describe('the service’s login', () => {
  test.each([
    // results
    ['results_with_their_past', [`update results set ${better} where lot_id = $drawn`]],
    [
      'results_with_their_past',
      [`update results set ${better}, entry = entry + 1, recorded_by = 2 where lot_id = $drawn`],
    ],
    [
      'results_with_their_past',
      [correction(''), `update results set ${better}, entry = entry + 2, recorded_by = 2 where lot_id = $drawn`],
    ],
    [
      'results_with_their_past',
      [correction(''), `update results set ${better}, entry = entry + 1, recorded_by = 1 where lot_id = $drawn`],
    ],
    ['results_with_their_past', [correction(''), `update results set ${better} where lot_id = $drawn`]],
    ['results_with_their_past', ['update results set counts = false where lot_id = $drawn']],
    ['results_with_their_past', [first('gone', ', counts, undecided, entry', ', false, true, 2')]],
    ['results_of_a_known_kind', [first('missing')]],
    ['results_of_a_known_kind', [first('untestable', ', counts', ', false')]],
    ['results_undecided_by_the_plan', [first('gone')]],
    ['results_undecided_by_the_plan', [first('spoiled', ', counts', ', false')]],
    ['results_by_a_recount', [first('no-cord', ', counts', ', false')]],
    ['results_counting', [`${recountTo(23)}`, first('no-cord')]],
    ['recounts_with_their_entry', [recountTo(23)]],
    ['recounts_of_its_places', [recountTo(24)]],
    ['rulings_on_undecided', [ruled]],
    [notAllowed, ['update rulings set reason = $accepted']],
    [notAllowed, ['delete from recounts']],
    ['earlier_results_true', [correction(`|| '{"return_loss_margin": 0}'`)]],
    ['earlier_results_true', [correction(`|| '{"return_loss_margin": -0.040}'`)]], // as a number it is the same
    ['earlier_results_true', [correction(`|| '{"entry": 2}'`)]],
    ['earlier_results_replaced', [correction('')]],
    ['results_while_tested', ['update results set counts = false where lot_id = $accepted']],
    [notAllowed, ['update results set position = position + 1 where lot_id = $drawn']],
    [notAllowed, ['delete from results']],
    // lots
    ['lots_lifecycle', [`update lots set state = 'drawn' where id = $accepted`]],
    ['lots_lifecycle', [`update lots set purchase_order = 'other' where id = $accepted`]],
    ['lots_frozen', [`update lots set purchase_order = 'other', state = 'drawn' where id = $drawn`]],
    ['lots_frozen', ['update lots set supplier_id = 1, state = state where id = $drawn']],
    ['lots_frozen', ['update lots set size = 23 where id = $drawn']],
    ['lots_frozen', [`update lots set withdrawal_reason = 'x' where id = $drawn`]],
    ['lots_frozen', [`update lots set size = 24, received_by = 2, received_at = now() where id = $announced`]],
    ['lots_step_with_its_paper', [`update lots set state = 'planned' where id = $received`]],
    ['lots_step_with_its_paper', [`update lots set state = 'accepted' where id = $drawn`]],
    [notAllowed, ['update lots set version = 1']],
    [notAllowed, [`update lots set moved_at = '2020-01-01'`]],
    [notAllowed, [`update lots set announced_at = '2020-01-01'`]],
    [
      'lots_lifecycle',
      [
        `insert into lots (supplier_id, item_id, announced_size, cartons, cords_in_carton, production_mark, purchase_order,
      announced_by, size, received_by, received_at, state) select supplier_id, item_id, 24, 3, 10, 'W', 'P', 1, 24, 2, now(), 'drawn' from lots limit 1`,
      ],
    ],
    // papers
    ['paper_in_its_state', [`insert into draws (lot_id, seed, method, drawn_by) values ($received, '1', 'x', 2)`]],
    ['paper_with_its_step', [`insert into draws (lot_id, seed, method, drawn_by) values ($planned, '1', 'x', 2)`]],
    [
      'drawn_cords_in_their_time',
      [
        `insert into drawn_cords (lot_id, position, purpose) select $accepted, p, 'rest' from generate_series(1, 24) p
      where not exists (select from drawn_cords where lot_id = $accepted and position = p)`,
      ],
    ],
    [notAllowed, ['update drawn_cords set position = 1']],
    [notAllowed, ['update plans set acceptance_number = 6']],
    [notAllowed, [`update decisions set outcome = 'returned'`]],
    [notAllowed, ['update tallies set sample_nonconforming = 0']],
    // the audit, the firm, people
    [
      'numbered_by_the_database',
      [
        `insert into audit (id, person_name, action, subject, detail) overriding system value
      values (5, 'Mara', 'lot.received', 'lot/1', '{}')`,
      ],
      `insert into audit (person_name, action, subject, detail) values ('Mara', 'lot.received', 'x', '{}')`,
    ],
    ['example_by_the_owner', [`insert into firms (name, example) values ('Invented', true)`]],
    [notAllowed, ['delete from audit']],
    [notAllowed, [`update people set created_at = '2020-01-01'`]],
    [notAllowed, [`update sessions set expires_at = '2035-01-01'`]],
    [notAllowed, ['delete from people']],
  ] as [string, string[], string?][])('is refused by %s: %s', async (by, statements, before) => {
    const stood = await everything()
    const refused = by === notAllowed ? { code: notAllowed } : { constraint_name: by }
    await expect(send(...(before === undefined ? [] : [before]), ...statements)).rejects.toMatchObject(refused)
    expect(await everything()).toBe(stood)
  })

  test.each([
    ['accepted', { after: 'screening', outcome: 'sorted', verdict: null }, 'paper_in_its_state'],
    ['drawn', { after: 'screening', outcome: 'sorted', verdict: null }, 'paper_in_its_state'],
    ['drawn', { after: 'sample' }, 'paper_with_its_step'],
  ] as const)('signs nothing beside the order: a lot that is %s, %o', async (state, of, by) => {
    const statement = decision({ lot_id: lot[state], ...of })
    await expect(send(statement)).rejects.toMatchObject({ constraint_name: by })
  })

  test.each([
    ['lots_step_with_its_paper', 'decisions', `update public.lots set state = 'accepted' where id = $drawn`],
    [
      'results_with_their_past',
      'earlier_results',
      `update public.results set ${better}, entry = entry + 1, recorded_by = 2 where lot_id = $drawn`,
    ],
  ])('is refused by %s whatever temporary table is named %s', async (by, table, statement) => {
    const stood = await everything()
    const copy =
      {
        decisions: decision({ lot_id: lot.drawn }),
        earlier_results: correction(`|| '{"corrected_at": "2026-11-26"}'`),
      }[table] ?? ''
    await expect(
      send(
        `create temporary table ${table} (like public.${table})`,
        copy.replace('insert into ', 'insert into pg_temp.'),
        statement,
      ),
    ).rejects.toMatchObject({ constraint_name: by })
    expect(await everything()).toBe(stood)
  })

  test('may replace an entry together with its earlier one, which is kept to the last digit', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    await recordResult(db, three.inspector, lotId, { key: randomUUID(), position, ...clear })
    const [first] =
      await owner`select crosstalk_margin::text, recorded_at::text as at, recorded_by from results where lot_id = ${lotId}`
    const mine = (statement: string) => statement.replaceAll('$drawn', String(lotId))
    await send(
      mine(correction('')),
      mine(`update results set ${better}, entry = entry + 1, recorded_by = 2 where lot_id = $drawn`),
    )
    const [kept] =
      await owner`select crosstalk_margin::text, recorded_at::text as at, recorded_by from earlier_results where lot_id = ${lotId}`
    expect(kept).toEqual(first)
    expect(kept?.crosstalk_margin).toBe('4.10')
  })

  test('meets rules that all look up their tables by a path of their own', async () => {
    const pathless = await owner`select proname from pg_proc p where prorettype = 'trigger'::regtype
      and pronamespace = 'public'::regnamespace and not ('search_path=public, pg_temp' = any (coalesce(proconfig, '{}')))`
    expect(pathless.map(({ proname }) => proname)).toEqual([])
  })

  test('says no time of its own', async () => {
    const long = '2001-01-01'
    await send(
      `insert into audit (at, person_id, person_name, action, subject, detail) values ('${long}', 1, 'Somebody Else', 'lot.received', 'x', '{}')`,
      `with s as (insert into suppliers (name, created_by, created_at) values ('S', 1, '${long}')) insert into submissions (key, person_id, act, subject, input_digest, at) values (gen_random_uuid(), 1, 'x.done', 'x', '', '${long}')`,
      `insert into sessions (token_hash, person_id, created_at, last_seen_at, expires_at) values ('x', 1, '${long}', '${long}', now() + interval '9 years')`,
      `insert into lots (supplier_id, item_id, announced_size, cartons, cords_in_carton, production_mark, purchase_order, announced_by, announced_at, moved_at, version)
        select supplier_id, item_id, 24, 3, 10, 'W', 'P', 1, '${long}', '${long}', 9 from lots limit 1`,
      `update lots set received_by = 2, received_at = '${long}', size = 24, state = 'received' where id = (select max(id) from lots)`,
      `insert into results (lot_id, position, kind, crosstalk_margin, return_loss_margin, wire_map, visual, state, nonconforming, recorded_by, recorded_at)
        select d.lot_id, d.position, 'tested', 1, 1, 'in-order', 'in-order', 'conforms', false, 2, '${long}' from drawn_cords d
        where d.lot_id = $drawn and not exists (select from results r where r.lot_id = d.lot_id and r.position = d.position) limit 1`,
    )
    const [now] = await owner`
      select (select count(*) from audit where at < '2002-01-01')::int as audit, (select count(*) from suppliers where created_at < '2002-01-01')::int as suppliers, (select count(*) from submissions where at < '2002-01-01')::int as keys,
        (select count(*) from lots where least(announced_at, received_at, moved_at) < '2002-01-01')::int as lots,
        (select count(*) from results where recorded_at < '2002-01-01')::int as results,
        (select count(*) from sessions where created_at < '2002-01-01' or expires_at > now() + interval '7 days')::int as sessions`
    expect(now).toEqual({ audit: 0, keys: 0, suppliers: 0, lots: 0, results: 0, sessions: 0 })
    expect(await owner`select person_name from audit where subject = 'x'`).toEqual([{ person_name: 'Oda Officer' }])
    expect(await owner`select version from lots order by id desc limit 1`).toEqual([{ version: 2 }])
  })
})
