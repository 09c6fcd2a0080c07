// Opens the database: the managed one that DATABASE_URL names, or the embedded one, migrated either way.
import { type Address, connectTo } from './address.ts'
import { type Db, databaseOver } from './client.ts'
import { startEmbedded } from './embedded/start.ts'
import { checkLogin, ownLogin } from './login.ts'
import { requireMended } from './mend/mend.ts'
import { migrateDatabase } from './migrate.ts'
import { type Pool, renewablePool } from './pool.ts'

/** `owner`: whose tables they are, where `url` is a login that an administrator made for the service */
export type DatabasePlace = { url: string; owner?: string | undefined } | { folder: string }

/** Its `db` works as the service's role. */
export type Database = Pool & {
  /** does a piece of work as the owner of the tables, over connections that are closed after it */
  asOwner<T>(work: (db: Db) => Promise<T>): Promise<T>
}

type Troubles = { onRestart: () => void; onStillDown: (error: Error) => void }

/** Starts the embedded server where the place is a folder, migrates as the owner, and opens the pool as the service's own login. */
export async function openDatabase(place: DatabasePlace, troubles: Troubles): Promise<Database> {
  requireMended()
  if ('url' in place)
    return place.owner === undefined ? openMigrated(place.url) : openMigrated(place.owner, { login: place.url })
  const server = await startEmbedded(place.folder, troubles)
  try {
    const database = await openMigrated(server.address, { direct: true })
    return {
      ...database,
      async close() {
        await database.close()
        await server.stop()
      },
    }
  } catch (error) {
    await server.stop()
    throw error
  }
}

/** Seconds before a lost connection is opened again: always the same, so that work goes on as soon as the database is back. */
const PAUSE = 0.25

async function openMigrated(owner: Address, own: { login?: Address; direct?: boolean } = {}): Promise<Database> {
  await migrateDatabase(owner)
  const login = own.login ?? (await ownLogin(owner))
  await checkLogin(login)
  return { ...openPool(login, 10, own.direct), asOwner: (work) => workAsOwner(owner, work) }
}

/**
 * A pool that works as the service's login, which may not remove history. `direct`: no pooler stands between, so that the
 * statements that say `prepare` are planned once a connection and not at each cord.
 */
export function openPool(login: Address, connections = 10, direct = false): Pool {
  const options = {
    max: connections,
    prepare: direct,
    connect_timeout: 5,
    backoff: () => PAUSE,
    connection: { application_name: 'cordsift' },
  }
  return renewablePool(() => connectTo(login, options))
}

async function workAsOwner<T>(address: Address, work: (db: Db) => Promise<T>): Promise<T> {
  const sql = connectTo(address, { max: 4, connect_timeout: 5, connection: { application_name: 'cordsift owner' } })
  try {
    return await work(databaseOver(sql))
  } finally {
    await sql.end({ timeout: 5 })
  }
}
