// A transaction begins together with what it reads first, and with nothing that writes.
import { sql } from 'drizzle-orm'
import { afterAll, expect, test } from 'vitest'
import { openPool } from '../../db/connect.ts'
import { freshDatabase } from '../support/database.ts'
import { wireTo } from '../support/wire.ts'

const { owner, address } = await freshDatabase()
await owner`create table numbers (n int primary key)`
const numbers = async () => (await owner`select n from numbers order by n`).map(({ n }) => n)

let refusing = false
/** The server knows no "bogin": it refuses the beginning and goes on with what comes after it. */
const wire = await wireTo(address, (piece) =>
  refusing ? Buffer.from(piece.toString('latin1').replace('begin', 'bogin'), 'latin1') : piece,
)
const { db, close } = openPool(wire.address, 1)
afterAll(close)
await db.execute(sql`select 1`)

test('what reads first goes with the beginning, statements of one moment go together, the end goes alone', async () => {
  const trips = await wire.trips(() =>
    db.transaction(async (tx) => {
      await Promise.all([tx.execute(sql`select ${1}::int`), tx.execute(sql`select ${2}::int`)])
      await Promise.all([1, 2, 3].map((n) => tx.execute(sql`insert into numbers values (${n})`)))
    }),
  )
  expect(trips).toBe(3)
  expect(await numbers()).toEqual([1, 2, 3])
})

test('what writes first waits until the transaction has begun', async () => {
  const trips = await wire.trips(() => db.transaction((tx) => tx.execute(sql`insert into numbers values (4)`)))
  expect(trips).toBe(3)
  expect(await numbers()).toEqual([1, 2, 3, 4])
})

test('statements keep the order in which they were made, whether they wait for the beginning or not', async () => {
  const seen = await db.transaction(async (tx) => {
    const made = [
      tx.execute<{ n: number }>(sql`select count(*)::int as n from numbers`),
      tx.execute(sql`delete from numbers where n = 4`),
      tx.execute<{ n: number }>(sql`select count(*)::int as n from numbers`),
    ]
    return Promise.all(made)
  })
  expect(seen.map((rows) => rows[0]?.n)).toEqual([4, undefined, 3])
})

test('where the beginning is refused nothing is written, the caller is told, and the connection serves on', async () => {
  refusing = true
  let late: Promise<unknown> = Promise.resolve()
  const broken = db.transaction(async (tx) => {
    const written = [tx.execute(sql`select 1`), tx.execute(sql`insert into numbers values (7)`)]
    late = Promise.allSettled(written).then(() => tx.execute(sql`insert into numbers values (8)`))
    late.catch(() => {})
    await Promise.all(written)
  })
  await expect(broken).rejects.toMatchObject({ code: '42601' })
  refusing = false
  await expect(late).rejects.toThrow()
  expect(await numbers()).toEqual([1, 2, 3])
  await db.transaction((tx) => tx.execute(sql`insert into numbers values (9)`))
  expect(await numbers()).toEqual([1, 2, 3, 9])
})
