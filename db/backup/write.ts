// Writes a backup: everything as it stood at one moment, while the service goes on working.
import { createHash, type Hash } from 'node:crypto'
import type postgres from 'postgres'
import { type Counted, type Head, lineOf } from './format.ts'
import { type BackupTable, backupRowsOf, countersOf, tablesOf } from './tables.ts'

/** Takes a piece of text and waits where the reader is slower. */
export type Sink = (text: string) => Promise<void>

export type Written = { head: Head; tables: Map<string, Counted> }

/**
 * Writes the record of a database, seen as its owner, to `sink`. One transaction reads it all: what is recorded meanwhile is
 * in the next backup, and nothing is half in this one.
 *
 * @param version of the program that writes
 */
export async function writeBackup(sql: postgres.Sql, sink: Sink, version: string): Promise<Written> {
  return sql.begin('isolation level repeatable read read only', async (tx) => {
    await tx`set local time zone 'UTC'`
    await tx`set local statement_timeout = 0`
    await tx`set local idle_in_transaction_session_timeout = 0`
    const whole = createHash('sha256')
    const write = async (text: string) => {
      whole.update(text)
      await sink(text)
    }
    const head = await headOf(tx, version)
    await write(lineOf(head))
    const tables = new Map<string, Counted>()
    for (const table of await tablesOf(tx)) {
      await write(lineOf({ table: table.name }))
      const counted = await writeRows(tx, table, write)
      await write(lineOf({ end: table.name, ...counted }))
      tables.set(table.name, counted)
    }
    for (const { table, column, sequence } of await countersOf(tx)) {
      if (!tables.has(table)) continue
      const [state] = await tx.unsafe<{ last: string; used: boolean }[]>(
        `select last_value as last, is_called as used from ${sequence}`,
      )
      if (state) await write(lineOf({ counter: table, column, last: Number(state.last), used: state.used }))
    }
    await sink(lineOf({ whole: whole.digest('hex') }))
    return { head, tables }
  })
}

async function headOf(tx: postgres.TransactionSql, version: string): Promise<Head> {
  const steps = await tx<{ hash: string }[]>`select hash from drizzle.__drizzle_migrations order by created_at, id`
  const [server] = await tx<{ version: string; made: string }[]>`select current_setting('server_version') as version,
    to_char(now() at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as made`
  if (!server) throw new Error('the database answered nothing')
  return {
    format: 'cordsift-backup-1',
    made: server.made,
    version,
    postgresql: server.version,
    steps: steps.map(({ hash }) => hash),
  }
}

async function writeRows(tx: postgres.TransactionSql, table: BackupTable, write: Sink): Promise<Counted> {
  const hash: Hash = createHash('sha256')
  let rows = 0
  for await (const slice of backupRowsOf(tx, table)) {
    const text = slice.map(({ row }) => `${row}\n`).join('')
    hash.update(text)
    rows += slice.length
    await write(text)
  }
  return { rows, sha256: hash.digest('hex') }
}
