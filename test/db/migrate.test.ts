// What a database must be before it is brought to this version, that it is left as it was otherwise, and the lock of those who start.
import postgres from 'postgres'
import { afterAll, describe, expect, inject, test } from 'vitest'
import { underTheLock } from '../../db/lock.ts'
import { migrateDatabase } from '../../db/migrate.ts'

const server = inject('postgres')
const main = postgres({ ...server, max: 1, onnotice: () => {} })
const name = `migrate_${process.pid}`
await main`create database ${main(name)}`
const address = { ...server, database: name }
const sql = postgres({ ...address, max: 2, onnotice: () => {} })
afterAll(async () => {
  await sql.end()
  await main`drop database ${main(name)} with (force)`
  await main.end()
})

const everything = () => sql<{ name: string }[]>`
  select n.nspname || '.' || c.relname as name from pg_class c join pg_namespace n on n.oid = c.relnamespace
  where n.nspname in ('public', 'drizzle', 'theirs') order by 1`
const steps = 'drizzle.__drizzle_migrations'

/** Gives the database a history that is not ours, and takes it away again. */
async function withHistory(rows: string[][], work: () => Promise<void>): Promise<void> {
  await sql.unsafe(
    `create schema drizzle; create table ${steps} (id serial primary key, hash text not null, created_at bigint)`,
  )
  for (const [hash, at] of rows) await sql.unsafe(`insert into ${steps} (hash, created_at) values ('${hash}', ${at})`)
  await sql`create table lots (id int)`
  await work()
  await sql.unsafe('drop table lots; drop schema drizzle cascade')
}

describe('a database that is not this version’s', () => {
  test('made by the eight steps of version 0.1.0 is refused in a sentence and left as it was', async () => {
    // sha256sum of db/migrations/0000_first.sql and 0001_guards.sql at 178a1a3, with the times of their journal
    const former = [
      ['c7ba578c88b5bdeba67e8ecbfb3caafacfed7f818cafc40dc817e257a28046d0', '1795614571062'],
      ['68a24c35105992572c4805339b1ad8123d964aba73ce8c17f0b3ebda2da7bcd7', '1795614571773'],
    ]
    await withHistory(former, async () => {
      const before = await everything()
      await expect(migrateDatabase(address)).rejects.toThrow('made by version 0.1.0')
      expect(await everything()).toEqual(before)
      expect(await sql.unsafe(`select hash from ${steps} order by id`)).toEqual(former.map(([hash]) => ({ hash })))
    })
  })

  test('made by steps that nobody knows is refused too', async () => {
    await withHistory([['f'.repeat(64), '1']], async () => {
      await expect(migrateDatabase(address)).rejects.toThrow('steps that this version does not know')
    })
  })

  test.each(['public', 'theirs'])('with tables of another program in %s is refused by their names', async (schema) => {
    await sql.unsafe(`create schema if not exists ${schema}; create table ${schema}.invoices (id int)`)
    const before = await everything()
    await expect(migrateDatabase(address)).rejects.toThrow(`used for something else (it holds ${schema}.invoices)`)
    expect(await everything()).toEqual(before)
    await sql.unsafe(`drop table ${schema}.invoices`)
  })

  test('that a newer version brought further is refused at the start, and by name', async () => {
    await migrateDatabase(address)
    await sql.unsafe(`insert into ${steps} (hash, created_at) values ('of a newer version', 9000000000000)`)
    await expect(migrateDatabase(address)).rejects.toThrow('a newer version of Cordsift')
    await sql.unsafe(`delete from ${steps} where hash = 'of a newer version'`)
    await migrateDatabase(address)
  })
})

describe('the lock of those who start', () => {
  test('is waited for until its time is over, which a sentence says, and nothing of it stays', async () => {
    const holder = await sql.reserve()
    await holder`select pg_advisory_lock(7306002)`
    const other = postgres({ ...address, max: 1, onnotice: () => {} })
    const refused = underTheLock(other, async () => 'done', 100)
    await expect(refused).rejects.toThrow('pg_locks shows the session')
    await holder`select pg_advisory_unlock(7306002)`
    holder.release()
    expect(await underTheLock(other, async () => 'done', 100)).toBe('done')
    expect(await sql`select from pg_locks where locktype = 'advisory' and objid = 7306002`).toHaveLength(0)
    await other.end()
  })
})
