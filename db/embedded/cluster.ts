// The files of the embedded cluster: made once, and looked at before they are used.
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { account, closedFolder } from './account.ts'
import { clearDrafts, draftIn } from './drafts.ts'
import { originInUse } from './processes.ts'

export const SUPERUSER = 'postgres'

/** What the database's programs see of our environment: nothing that names us or changes their language. */
export const environment = { PATH: process.env.PATH, LC_ALL: 'C', TZ: 'UTC' }

/**
 * Makes the cluster at `data` where there is none. Refuses, before anything is touched, one that another major version
 * wrote, and one that was copied from a cluster in use: half of a page may be older than its other half.
 */
export function readyCluster(bin: string, folder: string, data: string): void {
  if (!existsSync(data)) createCluster(bin, folder, data)
  clearDrafts(folder)
  const version = spawnSync(join(bin, 'postgres'), ['--version'], { encoding: 'utf8' })
  const major = /\d+/.exec(version.stdout ?? '')?.[0]
  if (major === undefined) throw new Error(`PostgreSQL does not run: ${version.error?.message ?? version.stderr}`)
  const wrote = readFileSync(join(data, 'PG_VERSION'), 'utf8').trim()
  if (major !== wrote)
    throw new Error(
      `${data} was written by PostgreSQL ${wrote}, and this is ${major}: restore a backup into an empty folder`,
    )
  const origin = originInUse(data)
  if (origin !== undefined)
    throw new Error(
      `${data} is a copy of ${origin} made while that was in use, so its files may not fit together: make a backup there with npm run backup, or stop the service there and copy again, or delete ${join(data, 'postmaster.pid')} to try it as it is`,
    )
}

/** initdb beside the real place, then one rename: a cluster is there whole or not at all, whenever we are killed. */
function createCluster(bin: string, folder: string, data: string): void {
  const draft = closedFolder(draftIn(folder))
  const locale = ['-E', 'UTF8', '--locale-provider=builtin', '--builtin-locale=C.UTF-8', '--locale=C']
  const made = spawnSync(
    join(bin, 'initdb'),
    ['-D', draft, '-U', SUPERUSER, '-A', 'trust', '--no-instructions', ...locale],
    {
      ...account,
      cwd: folder,
      encoding: 'utf8',
      env: environment,
    },
  )
  if (made.status !== 0) throw new Error(`initdb: ${made.error?.message ?? made.stderr}`)
  try {
    renameSync(draft, data)
  } catch (error) {
    rmSync(draft, { recursive: true, force: true })
    if (!existsSync(join(data, 'PG_VERSION'))) throw error // another start may have been quicker
  }
}
