// Puts a backup into an empty place, and proves there that everything arrived.
import { createHash } from 'node:crypto'
import type postgres from 'postgres'
import { type Address, withConnection } from '../address.ts'
import { brokenIn } from '../invariants.ts'
import { underTheLock } from '../lock.ts'
import { bringTo, countOfSteps } from '../migrate.ts'
import { type Counted, UnreadableBackup } from './format.ts'
import { type Part, proveBackup, readBackup } from './read.ts'
import { type BackupTable, backupRowsOf, tablesOf } from './tables.ts'

export type Restored = { made: string; version: string; tables: Map<string, Counted> }

/**
 * In one transaction: brings an empty database to the schema that the backup had, loads it, compares every table's checksum
 * with the backup's, goes on to the schema of this version, and looks at the invariants.
 *
 * @param owner of the database; its tables are made here
 * @throws UnreadableBackup, or an Error with a sentence for the console where the place is not empty, the backup comes from
 *   another program's version that this one does not know, or something did not arrive; nothing is kept then
 */
export function restoreBackup(owner: Address, path: string): Promise<Restored> {
  return withConnection(owner, async (sql) => {
    await refuseInhabited(sql)
    await proveBackup(path)
    const parts = readBackup(path)
    const first = await parts.next()
    if (first.done || first.value.kind !== 'head') throw new UnreadableBackup('it has no head')
    const { steps, made, version } = first.value.head
    const known = countOfSteps(steps)
    if (known === undefined)
      throw new Error(
        `This backup was made by Cordsift ${version}, which this version does not know: restore it with that version or a later one`,
      )
    const tables = await underTheLock(sql, async (tx) => {
      await tx`set local time zone 'UTC'`
      await tx`set local statement_timeout = 0`
      await tx`set local idle_in_transaction_session_timeout = 0`
      await bringTo(tx, known)
      const loaded = await load(tx, parts)
      await compare(tx, loaded)
      await bringTo(tx)
      const broken = await brokenIn(tx)
      if (broken.length > 0)
        throw new Error(`The backup breaks rules of the record: ${broken.map(({ name }) => name).join('; ')}`)
      return loaded
    })
    return { made, version, tables }
  })
}

async function refuseInhabited(sql: postgres.Sql): Promise<void> {
  const [found] = await sql<{ tables: number }[]>`
    select count(*)::int as tables from pg_class where relnamespace = 'public'::regnamespace and relkind in ('r', 'p')`
  if (found && found.tables > 0)
    throw new Error(
      'A backup is restored into an empty place only: name a folder that is not there yet in DATA_DIR, or a new database in DATABASE_URL',
    )
}

/** The tables' own triggers rest while rows are loaded as they were, and references are looked at once, at the end. */
async function load(tx: postgres.TransactionSql, parts: AsyncGenerator<Part>): Promise<Map<string, Counted>> {
  const tables = new Map((await tablesOf(tx)).map((table) => [table.name, table]))
  const references = await referencesIn(tx)
  for (const name of tables.keys()) await tx.unsafe(`alter table public."${name}" disable trigger user`)
  for (const { table, name } of references)
    await tx.unsafe(`alter table public."${table}" alter constraint "${name}" deferrable initially deferred`)
  const loaded = await loadParts(tx, parts, tables)
  await tx`set constraints all immediate`
  for (const { table, name } of references)
    await tx.unsafe(`alter table public."${table}" alter constraint "${name}" not deferrable`)
  for (const name of tables.keys()) await tx.unsafe(`alter table public."${name}" enable trigger user`)
  return loaded
}

async function loadParts(
  tx: postgres.TransactionSql,
  parts: AsyncGenerator<Part>,
  tables: Map<string, BackupTable>,
): Promise<Map<string, Counted>> {
  const loaded = new Map<string, Counted>()
  const known = (table: string) => {
    if (!tables.has(table)) throw new UnreadableBackup(`it holds a table that its version does not have (${table})`)
    return `public."${table}"`
  }
  for await (const part of parts) {
    if (part.kind === 'rows')
      await tx.unsafe(
        `insert into ${known(part.table)} overriding system value select * from jsonb_populate_recordset(null::${known(part.table)}, $1::text::jsonb)`,
        [`[${part.rows.join(',')}]`],
      )
    else if (part.kind === 'table') loaded.set(part.table, part.counted)
    else if (part.kind === 'counter')
      await tx.unsafe(`select setval(pg_get_serial_sequence($1, $2), $3::bigint, $4::boolean)`, [
        known(part.table),
        part.column,
        String(part.last),
        part.used,
      ])
  }
  const missing = [...tables.keys()].filter((name) => !loaded.has(name))
  if (missing.length > 0) throw new UnreadableBackup(`it lacks ${missing.join(', ')}`)
  return loaded
}

async function referencesIn(tx: postgres.TransactionSql): Promise<{ table: string; name: string }[]> {
  return tx<{ table: string; name: string }[]>`
    select r.relname as table, c.conname as name from pg_constraint c join pg_class r on r.oid = c.conrelid
    where c.contype = 'f' and r.relnamespace = 'public'::regnamespace`
}

/** Reads every row again, as the backup's writer did. */
async function compare(tx: postgres.TransactionSql, expected: Map<string, Counted>): Promise<void> {
  for (const table of await tablesOf(tx)) {
    const hash = createHash('sha256')
    for await (const slice of backupRowsOf(tx, table)) hash.update(slice.map(({ row }) => `${row}\n`).join(''))
    if (hash.digest('hex') !== expected.get(table.name)?.sha256)
      throw new Error(`${table.name} did not arrive as it was: nothing was restored`)
  }
}
