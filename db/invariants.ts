// What is true of every record at any time, counted by the database; runnable on a living one.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type postgres from 'postgres'
import { projectRoot } from '../app/kit/root.ts'

export type Invariant = { name: string; sql: string }

/** Each statement counts what breaks it; the comment before it is its name. */
export const invariants: Invariant[] = readFileSync(join(projectRoot, 'db/invariants.sql'), 'utf8')
  .split(/^-- /m)
  .slice(1)
  .flatMap((part) => {
    const end = part.indexOf('\n')
    const sql = part.slice(end).trim()
    return sql === '' ? [] : [{ name: part.slice(0, end).trim(), sql }]
  })

/** Those that are broken, with how often; none where all is well. Read at one moment, while others write. */
export function brokenInvariants(sql: postgres.Sql): Promise<Broken[]> {
  return sql.begin('isolation level repeatable read read only', async (tx) => {
    await tx`set local statement_timeout = 0`
    return brokenIn(tx)
  })
}

export type Broken = { name: string; broken: number }

/** The same inside a transaction. */
export async function brokenIn(tx: postgres.TransactionSql): Promise<Broken[]> {
  const found = []
  for (const { name, sql: statement } of invariants) {
    const [row] = await tx.unsafe<{ broken: number }[]>(`select (${statement.replace(/;\s*$/, '')})::int as broken`)
    if (row && row.broken !== 0) found.push({ name, broken: row.broken })
  }
  return found
}
