// The processes that serve the embedded cluster: which one does, what dead ones left behind, and how one is ended.
import { existsSync, readdirSync, readFileSync, readlinkSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'

/**
 * How a server is asked to end, and for how many seconds before it is asked less politely. SIGINT rolls back what is open
 * and writes all to disk; PostgreSQL 18 forgets one that comes while it recovers from the crash of a process, and then
 * takes neither connections nor an end. SIGQUIT and SIGKILL cost a recovery at the next start, and no data.
 */
export const ENDINGS = [
  { signal: 'INT', seconds: 8 },
  { signal: 'QUIT', seconds: 4 },
  { signal: 'KILL', seconds: 2 },
] as const

/** The process in postmaster.pid, if it really serves this cluster. */
export function serverOf(data: string): number | undefined {
  return holderOf(join(data, 'postmaster.pid'), data)
}

/** Ends the server of the cluster, if one runs, as `ENDINGS` says. */
export async function endServer(data: string): Promise<void> {
  const pid = serverOf(data)
  if (pid === undefined) return
  for (const { signal, seconds } of ENDINGS) {
    send(pid, `SIG${signal}`)
    for (const late = Date.now() + 1000 * seconds; Date.now() < late; await sleep(25))
      if (serverOf(data) !== pid) return
  }
}

/** Clears what would keep a new server from starting. Call it only where no server runs. */
export function clearLeftovers(data: string, socket: string): void {
  holderOf(`${socket}.lock`, data)
  for (const pid of orphansOf(data)) send(pid, 'SIGKILL')
}

/**
 * The cluster that this one was copied from, if that one is in use at this moment: its pid file came along, and names
 * the folder and the process that made it.
 */
export function originInUse(data: string): string | undefined {
  const [pid = '', origin = ''] = linesOf(join(data, 'postmaster.pid'))
  return origin !== data && workingFolder(Number.parseInt(pid, 10)) === origin ? origin : undefined
}

/**
 * The process that a lock file of PostgreSQL names, if it works in `data`. A file whose number went to another process
 * is removed: containers give the same low numbers again, and PostgreSQL believes it while any process of its own
 * account has that number. Where nobody has it, PostgreSQL clears the file itself.
 */
function holderOf(lock: string, data: string): number | undefined {
  const pid = Number.parseInt(linesOf(lock)[0] ?? '', 10)
  if (!lives(pid)) return undefined
  if (!existsSync('/proc/self')) return pid // elsewhere the file is believed
  if (workingFolder(pid) === data) return pid
  rmSync(lock, { force: true })
  return undefined
}

/**
 * Processes of a server that was killed and could not tell them: one that is computing goes on, and while it does,
 * PostgreSQL refuses to start beside it. A new server's own processes have a parent that works there too.
 */
function orphansOf(data: string): number[] {
  if (!existsSync('/proc/self')) return []
  return readdirSync('/proc')
    .map(Number)
    .filter((pid) => pid > 0 && workingFolder(pid) === data)
    .filter((pid) => textOf(`/proc/${pid}/cmdline`).startsWith('postgres:') && workingFolder(parentOf(pid)) !== data)
}

function parentOf(pid: number): number {
  return Number(/\) \S (\d+)/.exec(textOf(`/proc/${pid}/stat`))?.[1])
}

function workingFolder(pid: number): string | undefined {
  try {
    return readlinkSync(`/proc/${pid}/cwd`)
  } catch {
    return undefined // it ended, or is not ours to look at
  }
}

function lives(pid: number): boolean {
  try {
    return pid > 0 && process.kill(pid, 0)
  } catch {
    return false
  }
}

function send(pid: number, signal: NodeJS.Signals): void {
  try {
    process.kill(pid, signal)
  } catch {
    // it ended by itself in the meantime, which is what we wanted
  }
}

function linesOf(path: string): string[] {
  return textOf(path).split('\n')
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return '' // there is none, or no longer
  }
}
