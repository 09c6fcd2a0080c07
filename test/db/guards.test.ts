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

  test('is used under a role that is neither owner nor superuser', async () => {
    const [row] = await db.execute(
      sql`select current_user as name, (select rolsuper from pg_roles where rolname = current_user) as super`,
    )
    expect(row).toEqual({ name: 'cordsift_service', super: false })
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
