// The compiled service as a process of its own, to be killed, doubled and asked.
import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import postgres from 'postgres'
import { afterAll } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'

export type Service = {
  pid: number
  /** where the service listens; empty if it ended before it was ready */
  address: string
  /** everything said on standard error and standard output so far */
  said(): string
  /** exit code, or the signal's name */
  ended: Promise<number | string>
  kill(signal: NodeJS.Signals): Promise<number | string>
}

type Way = { env: Record<string, string>; cwd?: string; uid?: number }

/** What the file's tests leave behind, the last first. A hook that a test itself adds would never run. */
const clearing: (() => void)[] = []
afterAll(() => {
  for (const clear of clearing.reverse()) clear()
})

/** Compiles the sources into a folder of this test file's own; returns main.js in it. */
export function compiled(): string {
  const out = mkdtempSync(join(ownFolder('dist'), 'test-'))
  chmodSync(out, 0o755) // other accounts run it too
  clearing.push(() => remove(out))
  const made = spawnSync(
    'npx',
    [
      '--no-install',
      'tsc',
      '-p',
      'tsconfig.build.json',
      '--outDir',
      out,
      '--sourceMap',
      'false',
      '--incremental',
      'false',
    ],
    {
      cwd: projectRoot,
      encoding: 'utf8',
    },
  )
  if (made.status !== 0) throw new Error(`The sources do not compile:\n${made.stdout}`)
  return join(out, 'app/main.js')
}

/** An empty folder that is gone after the test file. */
export function dataFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'cordsift-survival-'))
  clearing.push(() => remove(folder))
  return folder
}

/** Starts without waiting. */
export function launch(main: string, { env, cwd, uid }: Way): ChildProcess {
  return spawn(process.execPath, [main], {
    cwd: cwd ?? tmpdir(),
    env: { PATH: process.env.PATH, LOG_LEVEL: 'warn', PORT: '0', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
    ...(uid === undefined ? {} : { uid, gid: uid }),
  })
}

/** Starts and waits until the service says that it is ready, or ends. */
export async function start(main: string, way: Way): Promise<Service> {
  const child = launch(main, way)
  let text = ''
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (piece: Buffer) => (text += piece.toString()))
  const ended = new Promise<number | string>((resolve) =>
    child.once('exit', (code, signal) => resolve(code ?? signal ?? 'nothing')),
  )
  clearing.push(() => child.kill('SIGKILL'))
  const address = /Cordsift is ready: (\S+)/
  const ready = async () => {
    while (!address.test(text)) await sleep(10)
  }
  await Promise.race([ready(), ended])
  return {
    pid: child.pid ?? 0,
    address: address.exec(text)?.[1] ?? '',
    said: () => text,
    ended,
    kill: (signal) => {
      child.kill(signal)
      return ended
    },
  }
}

/** Looks into the embedded database as its owner. */
export async function look<T>(
  folder: string,
  ask: (sql: postgres.Sql) => Promise<T>,
  socket = join(folder, 'socket'),
): Promise<T> {
  const sql = postgres({ host: socket, port: 5432, user: 'postgres', database: 'postgres', max: 1, onnotice: () => {} })
  try {
    return await ask(sql)
  } finally {
    await sql.end({ timeout: 1 })
  }
}

/** Number of the server's process, as its pid file says. */
export function serverPid(folder: string): number {
  return Number.parseInt(readFileSync(join(folder, 'cluster/postmaster.pid'), 'utf8'), 10)
}

/** Waits until nothing serves the cluster any more. */
export async function serverGone(folder: string): Promise<void> {
  while (lives(folder)) await sleep(20)
}

function lives(folder: string): boolean {
  try {
    process.kill(serverPid(folder), 0)
    return true
  } catch {
    return false
  }
}

/** A port that nobody listens on just now. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer().once('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const bound = server.address()
      server.close(() => resolve(typeof bound === 'object' && bound !== null ? bound.port : 0))
    })
  })
}

/** Tries again while a server that was just killed is still closing there. */
function remove(folder: string): void {
  rmSync(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 })
}

function ownFolder(name: string): string {
  const folder = join(projectRoot, name)
  mkdirSync(folder, { recursive: true })
  return folder
}
