// Brings a database to the schema of this version, one service at a time; refuses one that is not ours to change.
import { join } from 'node:path'
import { readMigrationFiles } from 'drizzle-orm/migrator'
import type postgres from 'postgres'
import { projectRoot } from '../app/kit/root.ts'
import { type Address, withConnection } from './address.ts'
import { valuesFromCreation } from './enumerations.ts'
import { underTheLock } from './lock.ts'
import { refuseHelplessOwner } from './login.ts'

const steps = readMigrationFiles({ migrationsFolder: join(projectRoot, 'db/migrations') })

/** Names the schema that this version works on: the time at which its last step was made. */
export const newestStep = Math.max(...steps.map((step) => step.folderMillis))

/** SHA-256 of the first step of version 0.1.0. */
const FIRST_OF_0_1_0 = 'c7ba578c88b5bdeba67e8ecbfb3caafacfed7f818cafc40dc817e257a28046d0'

/**
 * Applies the steps that the database lacks, as its owner: all or none, in one transaction. Throws a sentence for the
 * console, with nothing touched, for a PostgreSQL older than 15 and for a database that is not this program's.
 */
export async function migrateDatabase(owner: Address): Promise<void> {
  await withConnection(owner, async (sql) => {
    const [server] = await sql<{ version: number }[]>`select current_setting('server_version_num')::int as version`
    if ((server?.version ?? 0) < 150_000)
      throw new Error(`PostgreSQL 15 or later is needed; the server is ${Math.floor((server?.version ?? 0) / 10_000)}`)
    await underTheLock(sql, (tx) => bringTo(tx))
  })
}

/**
 * Applies the first `count` steps, in the caller's transaction; those that the database has already are passed over. Throws
 * as `migrateDatabase` does for a database that is not this program's.
 */
export async function bringTo(tx: postgres.TransactionSql, count = steps.length): Promise<void> {
  const done = await stepsOf(tx)
  refuseForeignSteps(done)
  if (done.length === 0) await refuseForeignTables(tx)
  if (done.length < count) await refuseHelplessOwner(tx)
  const lacking = steps.slice(done.length, count)
  const inPlaceOf = valuesFromCreation(lacking.flatMap(({ sql }) => sql))
  for (const step of lacking) {
    for (const statement of step.sql) {
      const carriedOut = inPlaceOf(statement)
      if (carriedOut !== undefined) await tx.unsafe(carriedOut)
    }
    await tx`insert into drizzle.__drizzle_migrations (hash, created_at) values (${step.hash}, ${step.folderMillis})`
  }
}

/** How many of this version's steps these hashes are, undefined where they are another program's or a newer version's. */
export function countOfSteps(hashes: readonly string[]): number | undefined {
  return hashes.every((hash, at) => steps[at]?.hash === hash) ? hashes.length : undefined
}

type Step = { hash: string; made: string }

/** What was applied, the first one first. */
async function stepsOf(tx: postgres.TransactionSql): Promise<Step[]> {
  const [table] = await tx<
    { there: boolean }[]
  >`select to_regclass('drizzle.__drizzle_migrations') is not null as there`
  if (table?.there)
    return tx<Step[]>`select hash, created_at::text as made from drizzle.__drizzle_migrations order by created_at, id`
  await tx`create schema if not exists drizzle`
  await tx`create table drizzle.__drizzle_migrations (id serial primary key, hash text not null, created_at bigint)`
  return []
}

/** Tables where ours would be, or of the same account anywhere; those that belong to an extension are nobody's. */
async function refuseForeignTables(tx: postgres.TransactionSql): Promise<void> {
  const found = await tx<{ name: string }[]>`
    select format('%I.%I', n.nspname, c.relname) as name
    from pg_class c join pg_namespace n on n.oid = c.relnamespace
    where c.relkind in ('r', 'p', 'v', 'm', 'f') and n.nspname !~ '^pg_' and n.nspname not in ('information_schema', 'drizzle')
      and (n.nspname = 'public' or c.relowner = (select oid from pg_roles where rolname = current_user))
      and not exists (select from pg_depend d where d.classid = 'pg_class'::regclass and d.objid = c.oid and d.deptype = 'e')
    order by 1 limit 4`
  if (found.length === 0) return
  const some = found.map(({ name }) => name).slice(0, 3)
  throw new Error(
    `The database is used for something else (it holds ${some.join(', ')}${found.length > some.length ? ' and more' : ''}): name an empty one in DATABASE_URL`,
  )
}

/** What was applied must be what this version would have applied; a longer row of steps is a newer version's. */
function refuseForeignSteps(done: Step[]): void {
  if (done[0]?.hash === FIRST_OF_0_1_0)
    throw new Error(
      'The database was made by version 0.1.0, whose data this version cannot take over: name an empty database in DATABASE_URL, or an empty folder in DATA_DIR',
    )
  if (done.length > steps.length && done.slice(0, steps.length).every(isOurs))
    throw new Error('The database was brought to a newer version of Cordsift than this one: start that version')
  if (!done.every(isOurs))
    throw new Error(
      'The database was brought to where it is by steps that this version does not know: start the version that made it, or name an empty database in DATABASE_URL, or an empty folder in DATA_DIR',
    )
}

function isOurs({ hash }: Step, at: number): boolean {
  return steps[at]?.hash === hash
}
