// Values reach the database as they are, whether they go in one trip with their statement or only once their types are known.
import { sql } from 'drizzle-orm'
import { integer, jsonb, pgTable, timestamp } from 'drizzle-orm/pg-core'
import { afterAll, describe, expect, test } from 'vitest'
import { openPool } from '../../db/connect.ts'
import { freshDatabase } from '../support/database.ts'
import { wireTo } from '../support/wire.ts'

const { owner, address } = await freshDatabase()
await owner`create table kept (n integer primary key, at timestamptz, said jsonb)`
const wire = await wireTo(address)
const { db, close } = openPool(wire.address, 1)
afterAll(close)
await db.execute(sql`select 1`)

// The texts are those that PostgreSQL's manual gives for the output of each type (chapter 8).
const kinds: { what: string; value: unknown; type: string; seen: string | null; trips: number }[] = [
  { what: 'text', value: `Zoë said "no", it's $1 \\ ✓`, type: 'text', seen: `Zoë said "no", it's $1 \\ ✓`, trips: 1 },
  { what: 'no text', value: '', type: 'text', seen: '', trips: 1 },
  { what: 'a whole number', value: -42, type: 'int', seen: '-42', trips: 1 },
  { what: 'a fraction', value: 0.1, type: 'double precision', seen: '0.1', trips: 1 },
  { what: 'a large number', value: 1e21, type: 'numeric', seen: '1000000000000000000000', trips: 1 },
  { what: 'a number of every digit as text', value: '4.10', type: 'numeric', seen: '4.10', trips: 1 },
  { what: 'a bigint', value: 9_007_199_254_740_993n, type: 'bigint', seen: '9007199254740993', trips: 1 },
  { what: 'true', value: true, type: 'boolean', seen: 'true', trips: 1 },
  { what: 'false', value: false, type: 'boolean', seen: 'false', trips: 1 },
  { what: 'nothing', value: null, type: 'int', seen: null, trips: 1 },
  {
    what: 'an instant as text',
    value: '2031-02-03T04:05:06.007Z',
    type: 'timestamptz',
    seen: '2031-02-03 04:05:06.007+00',
    trips: 1,
  },
  { what: 'JSON as text', value: '{"a": [1, "b"]}', type: 'jsonb', seen: '{"a": [1, "b"]}', trips: 1 },
  { what: 'an array as text', value: '{1,2,3}', type: 'int[]', seen: '{1,2,3}', trips: 1 },
  { what: 'an array', value: sql.param([1, 2, 3]), type: 'int[]', seen: '{1,2,3}', trips: 2 },
  {
    what: 'an array of texts',
    value: sql.param(['a b', 'c,"d"']),
    type: 'text[]',
    seen: '{"a b","c,\\"d\\""}',
    trips: 2,
  },
  { what: 'bytes', value: Buffer.from([0, 1, 254, 255]), type: 'bytea', seen: '\\x0001feff', trips: 2 },
]

describe('as the database reads it', () => {
  test.each(kinds)('$what', async ({ value, type, seen, trips }) => {
    let rows: readonly Record<string, unknown>[] = []
    const taken = await wire.trips(async () => {
      rows = await db.execute(sql`select (${value}::${sql.raw(type)})::text as seen`)
    })
    expect([...rows]).toEqual([{ seen }])
    expect(taken).toBe(trips)
  })
})

test('what a column of the schema makes of a date and of an object goes in one trip and comes back', async () => {
  const kept = pgTable('kept', {
    n: integer().primaryKey(),
    at: timestamp({ withTimezone: true, mode: 'date' }),
    said: jsonb(),
  })
  const row = { n: 1, at: new Date('2031-02-03T04:05:06.007Z'), said: { a: [1, 'b', null], c: 'd"e' } }
  expect(await wire.trips(async () => db.insert(kept).values(row))).toBe(1)
  expect(await db.select().from(kept)).toEqual([row])
  expect([...(await owner`select at::text, said::text from kept`)]).toEqual([
    { at: '2031-02-03 04:05:06.007+00', said: '{"a": [1, "b", null], "c": "d\\"e"}' },
  ])
})

test('a statement that is refused leaves the connection usable, and says why', async () => {
  await expect(db.execute(sql`select ${'no number'}::int`)).rejects.toMatchObject({ cause: { code: '22P02' } })
  await expect(db.execute(sql`selct ${1}`)).rejects.toMatchObject({ cause: { code: '42601' } })
  expect([...(await db.execute(sql`select ${7}::int as seven`))]).toEqual([{ seven: 7 }])
})
