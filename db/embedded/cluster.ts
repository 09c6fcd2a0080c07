// The files of the embedded cluster: made once, checked for their version, and asked which process serves them.
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, readlinkSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { account, closedFolder } from './account.ts'
import { clearDrafts, draftIn } from './drafts.ts'

export const SUPERUSER = 'postgres'

/** What the database's programs see of our environment: nothing that names us or changes their language. */
export const environment = { PATH: process.env.PATH, LC_ALL: 'C', TZ: 'UTC' }

/** Makes the cluster at `data` where there is none, and refuses one that another major version wrote, before anything is touched. */
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
}

/** The process in postmaster.pid, if it really serves this cluster. */
export function serverOf(data: string): number | undefined {
  const file = join(data, 'postmaster.pid')
  let pid: number
  try {
    pid = Number.parseInt(readFileSync(file, 'utf8'), 10)
    process.kill(pid, 0)
  } catch {
    return undefined // no file, or nobody has that number: PostgreSQL clears its own stale file
  }
  try {
    if (readlinkSync(`/proc/${pid}/cwd`) === data) return pid
  } catch {
    return existsSync('/proc/self') ? undefined : pid // without /proc the file is believed
  }
  rmSync(file, { force: true }) // the number went to another process: containers give the same low numbers again
  return undefined
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
