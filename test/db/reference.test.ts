// npm run docs prints every function of the engine with its doc block, and every table that the database has.
import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'
import { freshDatabase } from '../support/database.ts'

const { owner } = await freshDatabase()
const printed = spawnSync(process.execPath, ['docs/reference.mjs'], {
  cwd: projectRoot,
  encoding: 'utf8',
  maxBuffer: 2 ** 26,
})

test('every exported function of the engine stands in the reference', () => {
  const folder = join(projectRoot, 'app/statistics')
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => [...readFileSync(join(folder, name), 'utf8').matchAll(/^export function\*? (\w+)/gm)])
    .map(([, name = '']) => name)
  expect(printed.stderr).toBe('')
  expect(names.length).toBeGreaterThan(200)
  expect(names.filter((name) => !printed.stdout.includes(`function ${name}`))).toEqual([])
  expect(printed.stdout).toContain('@example designZeroForLot({ lotSize: 480, nonconforming: 5, risk: 0.05 }) // 216')
})

// The login's own salt is made by db/login.ts and belongs to no record.
test('every table stands in the reference with its columns', async () => {
  const columns = await owner<{ table: string; column: string }[]>`
    select table_name as table, column_name as column from information_schema.columns where table_schema = 'public' and table_name <> 'service_login' order by 1, 2`
  const parts = new Map(printed.stdout.split(/^## /m).map((part) => [part.split('\n')[0], part]))
  expect(columns.length).toBeGreaterThan(100)
  expect(columns.filter(({ table, column }) => !parts.get(table)?.includes(`| ${column} |`))).toEqual([])
})
