// A fresh, migrated, empty database for one test file.
import { randomBytes } from 'node:crypto'
import postgres from 'postgres'
import { afterAll, inject } from 'vitest'
import type { Db } from '../../db/client.ts'
import { openPool } from '../../db/connect.ts'
import { TEMPLATE } from './postgres.ts'

export type TestDatabase = {
  /** works as the service's role, as the service itself does */
  db: Db
  /** works as the owner: for looking behind the service's back */
  owner: postgres.Sql
  address: { host: string; port: number; user: string; database: string }
}

/** Call it at the top of a test file: `const { db } = await freshDatabase()`. It is dropped after the file. */
export async function freshDatabase(): Promise<TestDatabase> {
  const server = inject('postgres')
  const database = `test_${randomBytes(6).toString('hex')}`
  const main = postgres({ ...server, max: 1, onnotice: () => {} })
  await main`select pg_advisory_lock(1)` // a template can be copied by one at a time
  await main`create database ${main(database)} template ${main(TEMPLATE)}`
  await main`select pg_advisory_unlock(1)`
  const address = { ...server, database }
  const pool = openPool(address, 8)
  const owner = postgres({ ...address, max: 2, onnotice: () => {} })
  afterAll(async () => {
    await pool.close()
    await owner.end()
    await main`drop database ${main(database)} with (force)`
    await main.end()
  })
  return { db: pool.db, owner, address }
}
