// Which tables a backup holds, and in which order their rows stand: the same on every server, so that checksums agree.
import type postgres from 'postgres'

type Sql = postgres.Sql | postgres.TransactionSql

/** What is worth nothing in another place, or opens a door there: sessions, links that were handed out, counted attempts, the login's salt. */
const leftOut = new Set(['sessions', 'password_attempts', 'event_counts', 'one_time_links', 'service_login'])

export type BackupTable = { name: string; order: string }
export type Counter = { table: string; column: string; sequence: string }

/** Every table of the record, by name. Rows stand in the order of the primary key, text by its bytes whatever the server's collation. */
export async function tablesOf(sql: Sql): Promise<BackupTable[]> {
  const rows = await sql<{ name: string; order: string }[]>`
    select c.relname as name, string_agg(format('%I', a.attname) || case when t.typcategory = 'S' then ' collate "C"' else '' end, ', '
      order by array_position(i.indkey::int2[], a.attnum)) as "order"
    from pg_class c
    join pg_index i on i.indrelid = c.oid and i.indisprimary
    join pg_attribute a on a.attrelid = c.oid and a.attnum = any (i.indkey)
    join pg_type t on t.oid = a.atttypid
    where c.relnamespace = 'public'::regnamespace and c.relkind = 'r'
    group by c.relname order by c.relname collate "C"`
  return rows.filter(({ name }) => !leftOut.has(name))
}

/** Columns whose numbers the database gives. */
export async function countersOf(sql: Sql): Promise<Counter[]> {
  return sql<Counter[]>`
    select c.relname as table, a.attname as column, pg_get_serial_sequence(format('public.%I', c.relname), a.attname) as sequence
    from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attidentity <> ''
    where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' order by c.relname collate "C"`
}

/** Rows of a table as lines of JSON, every digit kept, a few thousand at a time. */
export function backupRowsOf(sql: Sql, { name, order }: BackupTable): AsyncIterable<{ row: string }[]> {
  return sql
    .unsafe<{ row: string }[]>(`select to_jsonb(t)::text as row from public."${name}" t order by ${order}`)
    .cursor(5000)
}
