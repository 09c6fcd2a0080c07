// A fresh, migrated, empty database for one test file.
import { randomBytes } from 'node:crypto'
import postgres from 'postgres'
import { afterAll, inject } from 'vitest'
import { type Db, databaseOver } from '../../db/client.ts'
import { openPool } from '../../db/connect.ts'
import { ownLogin } from '../../db/login.ts'
import { TEMPLATE } from './postgres.ts'

export type TestDatabase = {
  /** works as the service's login, as the service itself does */
  db: Db
  /** works as the owner: for looking behind the service's back */
  owner: postgres.Sql
  /** the owner's, as a verb takes it: for what is written as no service may */
  ownerDb: Db
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
  const pool = openPool(await ownLogin(address), 8, true)
  const owner = postgres({ ...address, max: 2, onnotice: () => {} })
  const [login] = await owner<{ name: string }[]>`
    select 'cordsift_service_' || oid as name from pg_database where datname = current_database()`
  afterAll(async () => {
    await pool.close()
    await owner.end()
    await main`drop database ${main(database)} with (force)`
    await main.unsafe(`drop role ${login?.name}`)
    await main.end()
  })
  return { db: pool.db, owner, ownerDb: databaseOver(owner), address }
}
