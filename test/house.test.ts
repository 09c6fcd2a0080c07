// The house: which folders there are, who may import from whom, how long a file may be.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '../app/kit/root.ts'
import { faultsOf, functionsIn, importsIn, type SourceFile } from './support/house.ts'

const rooms = ['app', 'db', 'views', 'seed', 'examples', 'test', 'bench']

function sources(): SourceFile[] {
  return rooms.flatMap((room) =>
    readdirSync(join(projectRoot, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name) && !/(^|\/)node_modules\//.test(name) && name !== 'house.test.ts') // its rows are imports that must not be
      .map((name) => ({ path: join(room, name), text: readFileSync(join(projectRoot, room, name), 'utf8') })),
  )
}

describe('the house', () => {
  test('stands as its rules say', () => {
    const files = sources()
    expect(files.length).toBeGreaterThan(50)
    expect(faultsOf(files)).toEqual([])
  })

  const head = '// For a test.\n'
  test.each([
    ['app/statistics/a.ts', "import { Db } from '../../db/client.ts'", 'from a room below its own'],
    ['app/statistics/a.ts', "import { z } from 'zod'", 'the engine imports only itself'],
    ['app/statistics/a.ts', "import { hash } from 'node:crypto'", 'the engine imports only itself'],
    ['app/kit/a.ts', "import { Db } from '../../db/client.ts'", 'from a room below its own'],
    ['app/lots/rules/a.ts', "import { lots } from '../../../db/schema/lots.ts'", 'rules are pure'],
    ['app/lots/rules/a.ts', "import { lock } from '../record/lock.ts'", 'from a room below its own'],
    ['app/lots/record/a.ts', "import type { A } from '../acts/decide.ts'", 'from a room below its own'],
    ['app/lots/acts/a.ts', "import { countedLots } from '../../history/counted-lots.ts'", 'from a room below its own'],
    ['app/register/a.ts', "import {\n  announce,\n} from '../lots/acts/announce.ts'", 'from a room below its own'],
    ['app/lots/a.ts', "import { lotRoutes } from '../web/lots.tsx'", 'from a room below its own'],
    ['app/lots/a.ts', "import { Page } from '../../views/layout.tsx'", 'from a room below its own'],
    ['app/lots/a.ts', "export { plantExample } from '../../seed/example.ts'", 'from a room below its own'],
    ['app/lots/a.ts', "const later = await import('../../seed/example.ts')", 'from a room below its own'],
    ['views/a.tsx', "import { announce } from '../app/lots/acts/announce.ts'", 'imports more than types'],
    ['views/a.tsx', "import type { Env } from '../app/web/http/env.ts'", 'from a room below its own'],
    ['app/lots/a.ts', "import { b } from './b'", 'without its ending'],
    ['app/news/a.ts', '', 'lies in no room'],
    ['app/lots/utils.ts', '', 'says nothing'],
    ['app/lots/index.ts', '', 'says nothing'],
    ['app/lots/long.ts', `${'\n'.repeat(260)}const last = 1`, 'lines; 250 is the most'],
    ['app/lots/a.ts', 'export default 1', 'default export'],
    ['app/lots/a.ts', `export function long() {\n${'  step()\n'.repeat(40)}}`, 'long has 42 lines; 40 is the most'],
    ['app/lots/a.ts', `const long = () => {\n${'  step()\n'.repeat(40)}}`, 'long has 42 lines; 40 is the most'],
    ['views/a.tsx', 'const text = value.toFixed(2)', 'which views/figures.ts does'],
    ['views/a.tsx', "const text = new Intl.NumberFormat('en').format(value)", 'which views/figures.ts does'],
    ['app/lots/a.ts', "throw new Refusal('missing', `There is no lot`)", 'which views/words says'],
    ['app/lots/a.ts', "throw new Refusal(\n  'invalid',\n  'Give the reason',\n  {},\n)", 'which views/words says'],
    ['app/people/a.ts', "throw new Wait('Too much at once', {}, 2)", 'which views/words says'],
    ['app/lots/a.ts', "because('The file has no rows', {})", 'which views/words says'],
  ])('would say what is wrong with %s: %s', (path, text, fault) => {
    expect(faultsOf([{ path, text: head + text }]).join()).toContain(fault)
  })

  test('would say that files stand in a circle, of types too, and names no other', () => {
    const file = (name: string, ...from: string[]) => ({
      path: `app/lots/${name}.ts`,
      text: `${head}${from.map((other) => `import type { A } from './${other}.ts'\n`).join('')}`,
    })
    const ring = [file('a', 'b'), file('b', 'c'), file('c', 'a'), file('on', 'a'), file('under'), file('d', 'under')]
    expect(faultsOf(ring)).toEqual(['app/lots/a.ts, app/lots/b.ts, app/lots/c.ts import each other in a circle'])
    expect(faultsOf([file('a', 'b'), file('b', 'c'), file('c')])).toEqual([])
  })

  test('would say that one exported name has two meanings, and allows a name of one file', () => {
    const file = (path: string, text: string) => ({ path, text: head + text })
    const reading = [
      file('app/a.ts', 'export type Reading = string\n'),
      file('views/b.ts', 'export const Reading = 1\n'),
    ]
    expect(faultsOf(reading)).toEqual(['Reading means something else in each of app/a.ts, views/b.ts'])
    expect(faultsOf([file('app/a.ts', 'export type Reading = string\nexport const read = 1\n')])).toEqual([])
  })

  test('counts a function from its first line to its brace, parameters over several lines too', () => {
    const text =
      'function a(\n  b: number,\n): number {\n  return b\n}\nconst c = (d: number) =>\n  d + 1\nconst e = 1\n'
    expect(functionsIn(text)).toEqual([
      { name: 'a', lines: 5 },
      { name: 'c', lines: 2 },
    ])
  })

  test('would say that the head line is missing', () => {
    expect(faultsOf([{ path: 'db/a.ts', text: 'export const a = 1\n' }]).join()).toContain('what it is for')
  })

  test.each([
    ['views/a.tsx', "import type { LotFacts } from '../app/lots/record/lot.ts'"],
    ['app/web/bench.tsx', "import { Page } from '../../views/layout.tsx'"],
    ['app/people/a.ts', "import { record } from '../audit/record.ts'"],
    ['app/lots/acts/a.ts', "import { lock } from '../record/lock.ts'"],
    [
      'app/lots/a.ts',
      "throw new Refusal('missing', 'lot/missing', { lot })\nthrow new Wait(\n  'password/crowd', {}, 2)",
    ],
    ['app/main.ts', "import { plantExample } from '../seed/example.ts'"],
  ])('has nothing against %s: %s', (path, text) => {
    expect(faultsOf([{ path, text: head + text }])).toEqual([])
  })

  test('reads imports over several lines, of types alone, and for their effect', () => {
    const text =
      "import type {\n  A,\n} from './a.ts'\nimport b, { c } from 'b'\nimport 'c'\nexport * from './d.ts'\nconst e = 'from x'\n"
    expect(importsIn(text)).toEqual([
      { from: './a.ts', typesOnly: true },
      { from: 'b', typesOnly: false },
      { from: 'c', typesOnly: false },
      { from: './d.ts', typesOnly: false },
    ])
  })
})
