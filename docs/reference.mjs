// npm run docs: prints the engine's declarations with their doc blocks, and the database's tables, as one Markdown page.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const root = join(import.meta.dirname, '..')

console.log(['# The engine', ...declarations(), '# The database', ...tables()].join('\n\n'))

/** What each file of the engine gives, as the compiler declares it. */
function declarations() {
  const folder = mkdtempSync(join(tmpdir(), 'cordsift-reference-'))
  const options = [
    '--noEmit',
    'false',
    '--declaration',
    '--emitDeclarationOnly',
    '--outDir',
    folder,
    '--incremental',
    'false',
  ]
  const made = spawnSync('npx', ['--no-install', 'tsc', '-p', 'app/statistics', ...options], {
    cwd: root,
    encoding: 'utf8',
  })
  if (made.status !== 0) throw new Error(made.stdout + made.stderr)
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.d.ts'))
  const parts = names.sort().map((name) => {
    const declared = readFileSync(join(folder, name), 'utf8').trim()
    return `## ${name.replace(/\.d\.ts$/, '')}\n\n\`\`\`ts\n${declared}\n\`\`\``
  })
  rmSync(folder, { recursive: true, force: true })
  return parts
}

/** The tables as the latest migration leaves them. */
function tables() {
  const folder = join(root, 'db/migrations/meta')
  const latest = readdirSync(folder)
    .filter((name) => name.endsWith('_snapshot.json'))
    .sort()
    .at(-1)
  const { tables } = JSON.parse(readFileSync(join(folder, latest), 'utf8'))
  return Object.values(tables)
    .sort((one, other) => (one.name < other.name ? -1 : 1))
    .map((table) => [`## ${table.name}`, columnsOf(table), keysOf(table)].filter(Boolean).join('\n\n'))
}

function columnsOf({ columns }) {
  const rows = Object.values(columns).map(
    ({ name, type, notNull }) => `| ${name} | ${type} | ${notNull ? '' : 'may be empty'} |`,
  )
  return ['| column | type | |', '| --- | --- | --- |', ...rows].join('\n')
}

function keysOf({ columns, compositePrimaryKeys, foreignKeys, checkConstraints }) {
  const single = Object.values(columns).filter(({ primaryKey }) => primaryKey)
  const primary = [
    ...single.map(({ name }) => name),
    ...Object.values(compositePrimaryKeys).flatMap((key) => key.columns),
  ]
  return [
    primary.length > 0 && `- key: ${primary.join(', ')}`,
    ...Object.values(foreignKeys).map(
      (key) => `- ${key.columnsFrom.join(', ')} → ${key.tableTo} (${key.columnsTo.join(', ')})`,
    ),
    ...Object.values(checkConstraints).map(({ name, value }) => `- ${name}: \`${value.replace(/"/g, '')}\``),
  ]
    .filter(Boolean)
    .join('\n')
}
