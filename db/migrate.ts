// Brings a database to the schema of this version, one service at a time.
import { join } from 'node:path'
import { drizzle } from 'drizzle-orm/postgres-js'
import { migrate } from 'drizzle-orm/postgres-js/migrator'
import postgres from 'postgres'
import { projectRoot } from './root.ts'

export type Address = string | { host: string; port: number; user: string; database: string }

const MIGRATION_LOCK = 7_306_002

/**
 * Applies the migrations that the database lacks, as its owner. Several services that start at once wait for each other
 * at an advisory lock, so each migration runs once. Throws a sentence for the console for a PostgreSQL older than 15.
 */
export async function migrateDatabase(address: Address): Promise<void> {
  const options = { max: 1, connect_timeout: 10, onnotice: () => {} }
  const sql = typeof address === 'string' ? postgres(address, options) : postgres({ ...address, ...options })
  try {
    const [server] = await sql<{ version: number }[]>`select current_setting('server_version_num')::int as version`
    if ((server?.version ?? 0) < 150_000)
      throw new Error(`PostgreSQL 15 or later is needed; the server is ${Math.floor((server?.version ?? 0) / 10_000)}`)
    await sql`select pg_advisory_lock(${MIGRATION_LOCK})`
    await migrate(drizzle(sql), { migrationsFolder: join(projectRoot, 'db/migrations') }).catch(explain)
  } finally {
    await sql.end({ timeout: 5 }) // the lock goes with its connection
  }
}

/** An account that may not make the service's role needs an administrator once. */
function explain(error: unknown): never {
  const cause: unknown = error instanceof Error ? error.cause : undefined
  if (cause instanceof postgres.PostgresError && cause.code === '42501')
    throw new Error(
      'The account of DATABASE_URL must own its database, and may make no roles: let an administrator run "create role cordsift_service nologin; grant cordsift_service to ACCOUNT" once',
      { cause },
    )
  throw error
}
