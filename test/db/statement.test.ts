// Statements worded once go to whoever sends them, with that one's values, and stay planned only where the connection is the database's own.
import { eq, sql } from 'drizzle-orm'
import { integer, jsonb, numeric, pgTable, text } from 'drizzle-orm/pg-core'
import { afterAll, describe, expect, test } from 'vitest'
import { openPool } from '../../db/connect.ts'
import { statement } from '../../db/statement.ts'
import { freshDatabase } from '../support/database.ts'
import { wireTo } from '../support/wire.ts'

const { owner, address } = await freshDatabase()
await owner`create table kept (n integer primary key, margin numeric, said jsonb, who text)`
const wire = await wireTo(address)
const kept = pgTable('kept', { n: integer().primaryKey(), margin: numeric(), said: jsonb(), who: text() })
const names = ['n', 'margin', 'said', 'who'] as const
type Row = Required<typeof kept.$inferInsert>
const add = statement<Row>('add', names).worded((db, row) => db.insert(kept).values(row))
const find = statement<{ n: number }>('find', ['n']).worded((db, { n }) => db.select().from(kept).where(eq(kept.n, n)))

const ways = [
  { over: 'a direct connection', direct: true, held: 2 },
  { over: 'a connection that a pooler may share', direct: false, held: 0 },
]

describe.each(ways)('over $over', ({ direct, held }) => {
  const { db, close } = openPool(wire.address, 1, direct)
  const others = openPool(address, 4, direct)
  afterAll(async () => {
    await close()
    await others.close()
    await owner`truncate kept`
  })

  // The texts are as PostgreSQL's manual has them (8.1 numeric, 8.14 jsonb).
  const rows = [
    { n: 1, margin: '4.10', said: { a: [1, 'b', null] }, who: `Zoë "no" $1` },
    { n: 2, margin: null, said: { b: 'd"e' }, who: null },
    { n: 3, margin: '-0.50', said: [1], who: '' },
  ]

  test('each sending has its own values, as they are', async () => {
    for (const row of rows) await add(db, row)
    for (const row of rows) expect(await find(db, { n: row.n })).toEqual([row])
    const seen = await owner`select n, margin::text, said::text, who from kept order by n`
    expect([...seen]).toEqual([
      { n: 1, margin: '4.10', said: '{"a": [1, "b", null]}', who: `Zoë "no" $1` },
      { n: 2, margin: null, said: '{"b": "d\\"e"}', who: null },
      { n: 3, margin: '-0.50', said: '[1]', who: '' },
    ])
  })

  test('the database keeps what was planned, or nothing', async () => {
    const [found] = await db.execute<{ held: number }>(
      sql`select count(*)::int as held from pg_prepared_statements where statement like '%"kept"%'`,
    )
    expect(found).toEqual({ held })
    expect(await wire.trips(() => find(db, { n: 1 }))).toBe(1)
  })

  test('what is sent in a transaction ends with it, however many are under way', async () => {
    const work = (n: number, whole: boolean) =>
      others.db.transaction(async (tx) => {
        await add(tx, { n, margin: null, said: n, who: 'at once' })
        const [own] = await find(tx, { n })
        if (!whole) throw new Error(`${n} is given up`)
        return own?.said
      })
    const numbers = Array.from({ length: 40 }, (_, at) => 100 + at)
    const ended = await Promise.allSettled(numbers.map((n) => work(n, n % 2 === 0)))
    expect(ended.map((one) => (one.status === 'fulfilled' ? one.value : one.reason.message))).toEqual(
      numbers.map((n) => (n % 2 === 0 ? n : `${n} is given up`)),
    )
    const left = await owner<{ n: number }[]>`select n from kept where who = 'at once' order by n`
    expect(left.map(({ n }) => n)).toEqual(numbers.filter((n) => n % 2 === 0))
  })

  test('one that is refused says why and is nobody else’s trouble', async () => {
    await expect(add(db, { n: 1, margin: null, said: 1, who: null })).rejects.toMatchObject({
      cause: { code: '23505' },
    })
    expect(await find(db, { n: 2 })).toHaveLength(1)
  })
})

test('one inside a savepoint ends with it alone', async () => {
  const { db, close } = openPool(address, 1, true)
  await db.transaction(async (tx) => {
    await add(tx, { n: 900, margin: null, said: 1, who: 'whole' })
    const part = tx.transaction(async (inner) => {
      await add(inner, { n: 901, margin: null, said: 1, who: 'part' })
      throw new Error('given up')
    })
    await expect(part).rejects.toThrow('given up')
  })
  expect((await owner`select n from kept where n >= 900`).map(({ n }) => n)).toEqual([900])
  await close()
})

test('a value that cannot be written is told as what it is, and goes with nobody', async () => {
  const { db, close } = openPool(address, 1)
  await expect(add(db, { n: 950, margin: null, said: 1n, who: null })).rejects.toThrow(TypeError)
  expect(await find(db, { n: 950 })).toEqual([])
  await close()
})

test('a statement that waits before it goes would go with the next one’s transaction: it is told', async () => {
  const waiting = statement('waiting', []).worded(() => ({ prepare: () => ({ execute: async () => 1 }) }))
  const { db, close } = openPool(address, 1)
  await expect(waiting(db, {})).rejects.toThrow('not sent at once')
  await close()
})
