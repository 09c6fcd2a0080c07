// One embedded PostgreSQL for the whole test run, with a migrated database that every test file clones.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import postgres from 'postgres'
import type { TestProject } from 'vitest/node'
import { startEmbedded } from '../../db/embedded/start.ts'
import { migrateDatabase } from '../../db/migrate.ts'

export const TEMPLATE = 'cordsift_template'

declare module 'vitest' {
  export interface ProvidedContext {
    postgres: { host: string; port: number; user: string; database: string }
  }
}

/** vitest calls it once, before any test file. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = mkdtempSync(join(tmpdir(), 'cordsift-test-'))
  const server = await startEmbedded(folder)
  const sql = postgres({ ...server.address, max: 1, onnotice: () => {} })
  await sql`create database ${sql(TEMPLATE)}`
  await sql.end()
  await migrateDatabase({ ...server.address, database: TEMPLATE })
  project.provide('postgres', server.address)
  return async () => {
    await server.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}
