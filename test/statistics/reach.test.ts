// What of the engine no page, verb, job or example reaches: listed in DEVELOPERS.md, and held true here, rather than hidden from the check of unused code.
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'
import { importsIn } from '../support/house.ts'

const engine = 'app/statistics/'

function sourcesIn(rooms: string[]): Map<string, string> {
  const paths = rooms.flatMap((room) =>
    readdirSync(join(projectRoot, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name))
      .map((name) => join(room, name)),
  )
  return new Map(paths.map((path) => [path, readFileSync(join(projectRoot, path), 'utf8')]))
}

/** Files of the engine that nothing outside it comes to, however far it goes. */
function unreached(): string[] {
  const files = sourcesIn(['app', 'db', 'views', 'seed'])
  const reached = new Set<string>()
  const open = [...files.keys()].filter((path) => !path.startsWith(engine))
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    if (reached.has(path)) continue
    reached.add(path)
    for (const { from } of importsIn(files.get(path) ?? ''))
      if (from.startsWith('.')) open.push(join(dirname(path), from))
  }
  return [...files.keys()].filter((path) => path.startsWith(engine) && !reached.has(path)).sort()
}

test('DEVELOPERS.md lists the files of the engine that nothing reaches yet, and no other', () => {
  const text = readFileSync(join(projectRoot, 'DEVELOPERS.md'), 'utf8')
  const [, list = ''] = text.split('Not reached yet: ')
  const named = [...(list.split('\n\n')[0] ?? '').matchAll(/`([\w/-]+\.ts)`/g)].map(([, name]) => `${engine}${name}`)
  expect(named.sort()).toEqual(unreached())
})
