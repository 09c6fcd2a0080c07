// Mends the pinned postgres.js in node_modules, and tells whether it is mended. No copy of the library is kept here.
import { createHash } from 'node:crypto'
import { readFileSync, renameSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { type Change, mendedFiles } from './changes.ts'

/**
 * Changes the files in place; does nothing where that is done. Throws, with a sentence for the console, where a file is
 * neither the published one nor the mended one: the changes were made and tried for exactly that one.
 */
export function mendLibrary(folder = libraryFolder()): void {
  for (const { path, published, mended, changes } of mendedFiles) {
    const file = join(folder, path)
    const text = readFileSync(file, 'utf8')
    if (digest(text) === mended) continue
    if (digest(text) !== published)
      throw new Error(
        `${file} is neither postgres.js 3.4.9 as published nor as mended for this version: npm ci brings the published one back`,
      )
    const changed = changes.reduce(apply, text)
    if (digest(changed) !== mended) throw new Error(`The changes to ${path} are not those that were tried`)
    replace(file, changed)
  }
}

/** Throws, with a sentence for the console, unless the library that this process works with is the mended one. */
export function requireMended(folder = libraryFolder()): void {
  for (const { path, mended } of mendedFiles) {
    const file = join(folder, path)
    if (digest(readFileSync(file, 'utf8')) !== mended)
      throw new Error(`${file} is not mended, and a lost connection would end the service: run npm run build`)
  }
}

/** The package's own folder. Its name leads to the CommonJS entry in `cjs/src`, whose neighbour we import. */
export function libraryFolder(): string {
  return join(dirname(createRequire(import.meta.url).resolve('postgres')), '../..')
}

function apply(text: string, { from, to }: Change): string {
  return text.replace(from, () => to)
}

/** By a rename: a service that starts meanwhile reads the one or the other, and a file shared with other checkouts stays as it is. */
function replace(file: string, text: string): void {
  const draft = `${file}.${process.pid}`
  try {
    writeFileSync(draft, text)
    renameSync(draft, file)
  } catch (cause) {
    throw new Error(`${file} cannot be mended by this account: run npm run build as its owner`, { cause })
  }
}

function digest(text: string): string {
  return createHash('sha256').update(text).digest('hex')
}
