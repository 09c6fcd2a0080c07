// The account that the embedded PostgreSQL runs under, and the folders that this account owns.
import { chownSync, existsSync, lstatSync, mkdirSync, readdirSync, realpathSync, statSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'

const NOBODY = 65534

/** PostgreSQL refuses to run as root. */
export const runsAsRoot = process.getuid?.() === 0

/** Account for child processes: our own, or nobody where we are root. initdb needs an account with a name, which nobody has. */
export const account: { uid?: number; gid?: number } = runsAsRoot ? { uid: NOBODY, gid: NOBODY } : {}

/** Whether the database's account can enter every folder down to this one. */
export function reachable(path: string): boolean {
  if (!runsAsRoot) return true
  const real = realpathSync(path)
  return (statSync(real).mode & 0o005) === 0o005 && (real === dirname(real) || reachable(dirname(real)))
}

/** Whether the database's account could work in a folder of this path, which need not be there yet. */
export function usableAsFolder(path: string): boolean {
  const parent = dirname(resolve(path))
  return existsSync(parent) ? reachable(parent) : usableAsFolder(parent)
}

/**
 * Makes a folder that the database's account alone may enter, and returns its real path.
 * Throws where the way to it is closed, or where it holds somebody else's files: those are not handed to another account.
 */
export function ownFolder(path: string): string {
  const folder = resolve(path)
  mkdirSync(dirname(folder), { recursive: true })
  if (!reachable(dirname(folder)))
    throw new Error(
      `${dirname(folder)} is closed to other accounts, and PostgreSQL does not run as root: name another data folder, such as DATA_DIR=/var/lib/cordsift`,
    )
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  const owner = account.uid ?? process.getuid?.()
  const cluster = join(folder, 'cluster')
  if (existsSync(cluster) && (statSync(folder).uid !== owner || statSync(cluster).uid !== owner))
    throw new Error(
      `${folder} holds a database that belongs to another account, as a copy made by root does: hand it over with chown -R ${owner} '${folder}'`,
    )
  if (runsAsRoot && statSync(folder).uid !== NOBODY) {
    if (readdirSync(folder).length > 0)
      throw new Error(`${folder} holds files of another account: name an empty data folder`)
    chownSync(folder, NOBODY, NOBODY)
  }
  if (statSync(folder).uid !== owner) throw new Error(`${folder} belongs to another account: name another data folder`)
  return realpathSync(folder)
}

/** Makes a folder that nobody else can enter, or throws where something else already stands there (any account may write in /tmp). */
export function closedFolder(path: string): string {
  mkdirSync(path, { recursive: true, mode: 0o700 })
  if (runsAsRoot && lstatSync(path).uid === 0) chownSync(path, NOBODY, NOBODY)
  const seen = lstatSync(path)
  const owner = account.uid ?? process.getuid?.()
  if (!seen.isDirectory() || seen.uid !== owner || (seen.mode & 0o077) !== 0) throw new Error(`${path} is not ours`)
  return path
}
