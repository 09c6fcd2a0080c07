// Connections that are lost in the middle: nothing waits for ever, nothing is written by a transaction that is no more.
import { sql } from 'drizzle-orm'
import postgres from 'postgres'
import { expect, test } from 'vitest'
import { openPool } from '../../db/connect.ts'
import { freshDatabase } from '../support/database.ts'

const { owner, address } = await freshDatabase()
await owner`create table numbers (n int primary key)`
await owner`grant all on numbers to cordsift_service`

const PLACES = 4

/** Ends every connection of the pool's, as an administrator or a restart does. */
const endAll = () => owner`
  select pg_terminate_backend(pid) from pg_stat_activity
  where application_name = 'cordsift' and datname = current_database()`

test('a transaction whose connection was lost writes nothing into what follows there', async () => {
  const pool = openPool(address, 1)
  let ended = () => {}
  const lost = new Promise<void>((resolve) => {
    ended = resolve
  })
  const broken = pool.db.transaction(async (tx) => {
    await tx.execute(sql`insert into numbers values (1)`)
    await lost
    await tx.execute(sql`insert into numbers values (2)`)
  })
  // the server's farewell, the closed socket or the write into it: which comes first is chance
  const refused = expect(broken).rejects.toMatchObject({
    code: expect.stringMatching(/^(57P01|CONNECTION_CLOSED|EPIPE)$/),
  })
  while (
    (
      await owner`
    select 1 from pg_stat_activity
    where state = 'idle in transaction' and query like 'insert%' and datname = current_database()`
    ).length === 0
  );
  await endAll()
  await refused
  await pool.db.transaction(async (tx) => {
    await tx.execute(sql`insert into numbers values (3)`)
    ended() // now the broken one goes on, and would write through the same place of the pool
    await tx.execute(sql`select pg_sleep(0.2)`)
    await tx.execute(sql`insert into numbers values (4)`)
  })
  expect((await owner`select n from numbers order by n`).map(({ n }) => n)).toEqual([3, 4])
  await pool.close()
})

test('many losses under writers: each goes on, each place of the pool is usable, what was answered is kept', async () => {
  const pool = openPool(address, PLACES)
  const acknowledged: number[] = []
  let next = 100
  let losses = 0
  let failed = 0
  const since = new Map<number, number>()
  const work = async (worker: number) => {
    while (losses < 25 || (since.get(worker) ?? 0) < 3) {
      const n = next++
      try {
        await pool.db.transaction(async (tx) => {
          await tx.execute(sql`insert into numbers values (${n})`)
          await tx.execute(sql`select pg_sleep(0.002)`)
          await tx.execute(sql`select count(*) from numbers where n in ${[n, n + 1]}`)
        })
        acknowledged.push(n)
        if (losses === 25) since.set(worker, (since.get(worker) ?? 0) + 1)
      } catch {
        failed++
      }
    }
  }
  const writers = Promise.all([1, 2, 3, 4, 5, 6, 7, 8].map(work))
  while (losses < 25) {
    const so = acknowledged.length
    while (acknowledged.length < so + 3) await new Promise((resolve) => setTimeout(resolve, 1))
    await endAll()
    losses++
  }
  await writers
  expect(failed).toBeGreaterThan(0)
  const kept = new Set((await owner`select n from numbers`).map(({ n }) => n))
  expect(acknowledged.filter((n) => !kept.has(n))).toEqual([])
  const backends = await Promise.all(
    Array.from({ length: PLACES }, () =>
      pool.db.transaction(async (tx) => {
        await tx.execute(sql`select pg_sleep(0.3)`)
        return (await tx.execute<{ pid: number }>(sql`select pg_backend_pid() as pid`))[0]?.pid
      }),
    ),
  )
  expect(new Set(backends).size).toBe(PLACES)
  await pool.close()
})

test('a result that was cut leaves no gap in the next one', async () => {
  const one = postgres({ ...address, max: 1, fetch_types: false, backoff: () => 0, onnotice: () => {} })
  const [self] = await one<{ pid: number }[]>`select pg_backend_pid() as pid`
  const cut = one`select n, pg_sleep(case when n = 3000 then 20 else 0 end) from generate_series(1, 4000) n`
  const refused = expect(cut).rejects.toThrow()
  while (
    (await owner`select 1 from pg_stat_activity where wait_event = 'PgSleep' and pid = ${self?.pid ?? 0}`).length === 0
  );
  await owner`select pg_terminate_backend(${self?.pid ?? 0})`
  await refused
  expect([...(await one`select 7 as seven`)]).toEqual([{ seven: 7 }])
  await one.end()
})
