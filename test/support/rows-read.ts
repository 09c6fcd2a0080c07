// How many rows of a lot's cords the database reads for an act: its own count, as no clock can be trusted in a test.
import { sql } from 'drizzle-orm'
import { afterAll } from 'vitest'
import type { Db } from '../../db/client.ts'
import { openPool } from '../../db/connect.ts'
import { ownLogin } from '../../db/login.ts'
import type { TestDatabase } from './database.ts'

export type Reader = { db: Db; rowsReadBy(act: () => Promise<unknown>): Promise<number> }

/**
 * A connection of its own; `act` works on its `db`, reads only, and is rolled back. A table of a test's size fits in a few
 * pages and would be read whole: here it is read as one of a million rows would be.
 */
export async function rowReader({ address }: Pick<TestDatabase, 'address'>): Promise<Reader> {
  const { db, close } = openPool(await ownLogin(address), 1)
  afterAll(close)
  return {
    db,
    async rowsReadBy(act) {
      await db.execute(sql`begin`)
      await db.execute(sql`set local enable_seqscan = off`)
      try {
        const before = await rowsRead(db)
        await act()
        return (await rowsRead(db)) - before
      } finally {
        await db.execute(sql`rollback`)
      }
    },
  }
}

/** Of this connection; the database hands them on to everybody's counts between transactions only. */
async function rowsRead(db: Db): Promise<number> {
  const [read] = await db.execute<{ rows: number }>(sql`
    select sum(seq_tup_read + coalesce(idx_tup_fetch, 0))::int as rows from pg_stat_xact_user_tables
    where relname in ('results', 'drawn_cords', 'earlier_results')`)
  return read?.rows ?? Number.NaN
}
