// npm run bench:mutations -- NUMBER SEED: breaks single lines of rules, acts and history in copies of the checkout, runs their mirrored tests, and names what no test noticed.
import { spawn } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { projectRoot } from '../app/kit/root.ts'

/** Where lines are broken, and the tests that mirror them. */
const rooms: Record<string, string[]> = {
  'app/lots/rules': ['test/lots/rules', 'test/lots/acts'],
  'app/lots/acts': ['test/lots/acts', 'test/lots/stages.test.ts', 'test/lots/critical.test.ts'],
  'app/history': ['test/history', 'test/desk'],
}

/** A change of one line: what it looks for, and what stands there afterwards. */
const changes: [name: string, pattern: RegExp, replacement: string][] = [
  ['equal', / === /, ' !== '],
  ['unequal', / !== /, ' === '],
  ['below', / < /, ' <= '],
  ['above', / > (?!=)/, ' >= '],
  ['at most', / <= /, ' < '],
  ['at least', / >= /, ' > '],
  ['plus', / \+ /, ' - '],
  ['minus', / - /, ' + '],
  ['and', / && /, ' || '],
  ['or', / \|\| /, ' && '],
  ['truth', /\btrue\b/, 'false'],
  ['falsehood', /\bfalse\b/, 'true'],
  ['number', /(?<=[(\s])(\d)(?=[),\s]|$)/, '1$1'],
  ['condition', /^(\s*)if \((.*)\) (return|throw|continue)/, '$1if (!($2)) $3'],
  ['statement', /^\s*await (?!tx\.insert).*\)$/, ''],
  ['least', /Math\.min\(/, 'Math.max('],
  ['most', /Math\.max\(/, 'Math.min('],
]

type Mutation = { file: string; line: number; name: string; before: string; after: string; tests: string[] }

const [number = 200, seed = 1] = process.argv.slice(2).map(Number)
const drawn = drawFrom(candidates(), number, seed)
const copies = [copyOfCheckout(), copyOfCheckout()]
const survivors: Mutation[] = []
const left = drawn.map((mutation, index) => ({ mutation, index }))
await Promise.all(
  copies.map(async (folder) => {
    for (let next = left.shift(); next; next = left.shift()) {
      const killed = await isKilled(folder, next.mutation)
      console.log(`${next.index + 1} ${killed ? 'noticed' : 'SURVIVED'} ${sayOf(next.mutation)}`)
      if (!killed) survivors.push(next.mutation)
    }
  }),
)
for (const folder of copies) rmSync(folder, { recursive: true, force: true })
console.log(`${drawn.length - survivors.length} of ${drawn.length} noticed (seed ${seed}); survivors:`)
for (const survivor of survivors) console.log(`  ${sayOf(survivor)}`)

/** Every change of every line of code in the rooms. */
function candidates(): Mutation[] {
  return Object.entries(rooms).flatMap(([room, tests]) =>
    readdirSync(join(projectRoot, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .flatMap((name) => changesOf(join(room, name), tests)),
  )
}

function changesOf(file: string, tests: string[]): Mutation[] {
  const lines = readFileSync(join(projectRoot, file), 'utf8').split('\n')
  return lines.flatMap((before, at) => {
    if (/^\s*(\/\/|\/?\*|import |export type |type |\|)/.test(before) || /[:?]\s*\(?['|]|=>.*: /.test(before)) return []
    return changes.flatMap(([name, pattern, replacement]) => {
      const after = before.replace(pattern, replacement)
      return after === before ? [] : [{ file, line: at + 1, name, before, after, tests }]
    })
  })
}

/** One change a line at most, drawn without repeating by a simple generator (Lehmer, 48271 modulo 2^31 − 1). */
function drawFrom(all: Mutation[], wanted: number, from: number): Mutation[] {
  let state = from
  const next = () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
  for (let warm = 0; warm < 10; warm++) next()
  const open = [...all]
  const taken = new Map<string, Mutation>()
  while (taken.size < wanted && open.length > 0) {
    const [mutation] = open.splice(Math.floor(next() * open.length), 1)
    if (mutation) taken.set(`${mutation.file}:${mutation.line}`, mutation)
  }
  return [...taken.values()]
}

function copyOfCheckout(): string {
  const folder = mkdtempSync(join(tmpdir(), 'cordsift-mutations-'))
  const skipped = /^(node_modules|dist|data|\.git)$/
  for (const name of readdirSync(projectRoot).filter((each) => !skipped.test(each)))
    cpSync(join(projectRoot, name), join(folder, name), { recursive: true })
  symlinkSync(join(projectRoot, 'node_modules'), join(folder, 'node_modules'))
  return folder
}

/** Whether any of the mirrored tests fails with the line broken. */
async function isKilled(folder: string, { file, line, after, tests }: Mutation): Promise<boolean> {
  const path = join(folder, file)
  const whole = readFileSync(path, 'utf8')
  writeFileSync(
    path,
    whole
      .split('\n')
      .with(line - 1, after)
      .join('\n'),
  )
  const code = await new Promise((resolve) =>
    spawn(
      'npx',
      ['--no-install', 'vitest', 'run', '--project', 'service', '--bail', '1', '--testTimeout', '20000', ...tests],
      {
        cwd: folder,
        stdio: 'ignore',
      },
    ).once('exit', resolve),
  )
  writeFileSync(path, whole)
  return code !== 0
}

function sayOf({ file, line, name, before }: Mutation): string {
  return `${file}:${line} (${name}) ${before.trim()}`
}
