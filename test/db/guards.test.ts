// The database's own promises: written once, read by the service's role, migrated once.
import { sql } from 'drizzle-orm'
import { describe, expect, test } from 'vitest'
import { migrateDatabase } from '../../db/migrate.ts'
import { freshDatabase } from '../support/database.ts'
import { threePeople } from '../support/people.ts'

const { db, owner, address } = await freshDatabase()

describe('the database', () => {
  test('keeps what it acknowledges: fsync and checksums are on', async () => {
    const [row] = await owner`select current_setting('fsync') as fsync, current_setting('data_checksums') as checksums`
    expect(row).toEqual({ fsync: 'on', checksums: 'on' })
  })

  test('is used by a login of its own, which cannot become the owner and carries its limits', async () => {
    const [row] = await db.execute(sql`
      select session_user = 'cordsift_service_' || (select oid from pg_database where datname = current_database()) as own,
        current_user = session_user as itself, rolsuper as super, rolconfig as carries, works_for_the_service() as serves
      from pg_roles where rolname = session_user`)
    const carries = ['statement_timeout=20000', 'lock_timeout=10000', 'idle_in_transaction_session_timeout=30000']
    expect(row).toEqual({ own: true, itself: true, super: false, carries, serves: true })
    const asked = await db.execute(
      sql`select current_setting('statement_timeout') as statement, current_setting('lock_timeout') as lock`,
    )
    expect(asked).toEqual([{ statement: '20s', lock: '10s' }])
    expect(await owner`select works_for_the_service() as serves`).toEqual([{ serves: false }])
  })

  test('lets nobody back out of the service’s role, as a session that only put it on could', async () => {
    await db.execute(sql`reset role`)
    await db.execute(sql`set role none`)
    for (const way of [
      'set role postgres',
      'set session authorization postgres',
      'alter table audit disable trigger all',
    ])
      await expect(db.execute(sql.raw(way)), way).rejects.toMatchObject({ cause: { code: '42501' } })
    await expect(db.execute(sql`select salt from service_login`)).rejects.toMatchObject({ cause: { code: '42501' } })
  })

  test('lets the service add to the audit, and neither change nor remove a line of it', async () => {
    const { manager } = await threePeople(db)
    await db.execute(
      sql`insert into audit (person_id, person_name, action, subject, detail) values (${manager.id}, 'Mara', 'lot.received', 'lot/1', '{}')`,
    )
    for (const change of ['update audit set action = $$lot.returned$$', 'delete from audit', 'truncate audit'])
      await expect(db.execute(sql.raw(change)), change).rejects.toMatchObject({ cause: { code: '42501' } })
    const lines = await owner`select action from audit`
    expect(lines).toEqual([{ action: 'lot.received' }])
  })

  test('refuses a change of the audit even to its owner', async () => {
    await expect(owner`delete from audit`).rejects.toMatchObject({ code: '23514', constraint_name: 'written_once' })
  })

  test('takes each migration once, however many services start at the same time', async () => {
    const before = await owner`select count(*)::int as n from drizzle.__drizzle_migrations`
    await Promise.all([1, 2, 3, 4].map(() => migrateDatabase(address)))
    expect(await owner`select count(*)::int as n from drizzle.__drizzle_migrations`).toEqual(before)
  })
})
