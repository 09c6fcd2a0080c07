// The mend of postgres.js: done once, to exactly the published files, and asked for at the start.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { mendedFiles } from '../../db/mend/changes.ts'
import { libraryFolder, mendLibrary, requireMended } from '../../db/mend/mend.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cordsift-mend-'))
  for (const { path, changes } of mendedFiles) {
    const mended = readFileSync(join(libraryFolder(), path), 'utf8')
    const published = changes.reduceRight((text, { from, to }) => text.replace(to, () => from), mended)
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), published)
  }
})
afterEach(() => rmSync(folder, { recursive: true }))

test('the published files are not enough to start on; mended once they are, and a second time changes nothing', () => {
  expect(() => requireMended(folder)).toThrow('run npm run build')
  mendLibrary(folder)
  requireMended(folder)
  const texts = () => mendedFiles.map(({ path }) => readFileSync(join(folder, path), 'utf8'))
  const once = texts()
  mendLibrary(folder)
  expect(texts()).toEqual(once)
})

test.each(mendedFiles.map(({ path }) => path))('another %s is refused with what to do, and left as it is', (path) => {
  const file = join(folder, path)
  const other = `${readFileSync(file, 'utf8')}\n`
  writeFileSync(file, other)
  expect(() => mendLibrary(folder)).toThrow('npm ci brings the published one back')
  expect(readFileSync(file, 'utf8')).toBe(other)
})
