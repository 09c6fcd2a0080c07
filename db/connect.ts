// Opens the database: the managed one that DATABASE_URL names, or the embedded one, migrated either way.
import { sql as statement } from 'drizzle-orm'
import postgres from 'postgres'
import { type Db, databaseOver } from './client.ts'
import { startEmbedded } from './embedded/start.ts'
import { requireMended } from './mend/mend.ts'
import { type Address, migrateDatabase } from './migrate.ts'

export type Place = { url: string } | { folder: string }

export type Database = {
  /** works as the service's role */
  db: Db
  /** does a piece of work as the owner of the tables, over connections that are closed after it */
  asOwner<T>(work: (db: Db) => Promise<T>): Promise<T>
  close(): Promise<void>
}

type Pool = { db: Db; close(): Promise<void> }

type Troubles = { onRestart: () => void; onStillDown: (error: Error) => void }

/** Starts the embedded server where the place is a folder, migrates as the owner, and opens the pool as the service's own role. */
export async function openDatabase(place: Place, troubles: Troubles): Promise<Database> {
  requireMended()
  if ('url' in place) {
    await migrateDatabase(place.url)
    return { ...openPool(place.url), asOwner: (work) => workAsOwner(place.url, work) }
  }
  const server = await startEmbedded(place.folder, troubles)
  try {
    await migrateDatabase(server.address)
  } catch (error) {
    await server.stop()
    throw error
  }
  const pool = openPool(server.address)
  return {
    db: pool.db,
    asOwner: (work) => workAsOwner(server.address, work),
    async close() {
      await pool.close()
      await server.stop()
    },
  }
}

/** Seconds before a lost connection is opened again: always the same, so that work goes on as soon as the database is back. */
const PAUSE = 0.25

/**
 * A pool that works as cordsift_service, which may not remove history. The database itself ends what takes too long:
 * postgres.js has no deadline of its own.
 */
export function openPool(address: Address, connections = 10): Pool {
  const options = {
    max: connections,
    connect_timeout: 5,
    backoff: () => PAUSE,
    onnotice: () => {},
    connection: {
      application_name: 'cordsift',
      role: 'cordsift_service',
      statement_timeout: 20_000,
      lock_timeout: 10_000,
      idle_in_transaction_session_timeout: 30_000,
    },
  }
  const pool = typeof address === 'string' ? postgres(address, options) : postgres({ ...address, ...options })
  return { db: databaseOver(pool), close: () => pool.end({ timeout: 5 }) }
}

async function workAsOwner<T>(address: Address, work: (db: Db) => Promise<T>): Promise<T> {
  const options = { max: 4, connect_timeout: 5, onnotice: () => {}, connection: { application_name: 'cordsift owner' } }
  const sql = typeof address === 'string' ? postgres(address, options) : postgres({ ...address, ...options })
  try {
    return await work(databaseOver(sql))
  } finally {
    await sql.end({ timeout: 5 })
  }
}

/** Whether the database answers within `patience` milliseconds. */
export async function answers(db: Db, patience: number): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<false>((resolve) => {
    timer = setTimeout(resolve, patience, false)
  })
  const reply = db.execute(statement`select 1`).then(
    () => true,
    () => false,
  )
  return Promise.race([reply, late]).finally(() => clearTimeout(timer))
}
