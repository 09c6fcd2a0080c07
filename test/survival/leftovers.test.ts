// What a dead server leaves, and what a copy of its folder carries along: each starts, or says in a sentence what to do.
import { execFileSync, spawn } from 'node:child_process'
import { chownSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import postgres from 'postgres'
import { beforeAll, expect, test } from 'vitest'
import { account, runsAsRoot } from '../../db/embedded/account.ts'
import { compiled, dataFolder, type Service, serverPid, start } from '../support/service.ts'

let main = ''
beforeAll(() => {
  main = compiled()
})

/** A process of the server that computes for minutes, as the owner, whom no time limit stops. */
async function busy(folder: string): Promise<{ pid: number; gone: Promise<unknown> }> {
  const options = { host: join(folder, 'socket'), port: 5432, user: 'postgres', database: 'postgres', max: 1 }
  const sql = postgres({ ...options, onnotice: () => {} })
  const [self] = await sql<{ pid: number }[]>`select pg_backend_pid() as pid`
  const gone = sql`select count(*) from generate_series(1, 2000000000)`.catch(() => sql.end({ timeout: 0 }))
  await sleep(300)
  return { pid: self?.pid ?? 0, gone }
}

/** The service has a server again, another one than `pid`, and works with it. */
async function worksAgain(service: Service, folder: string, pid: number): Promise<void> {
  while (!service.said().includes('was started again')) await sleep(20)
  while ((await fetch(`${service.address}/readyz`)).status !== 200) await sleep(50)
  expect(serverPid(folder)).not.toBe(pid)
  expect(await service.kill('SIGTERM')).toBe(0)
}

test('a server that was asked to end while it recovered from a crash, and forgot it, is made to end', async () => {
  const folder = dataFolder()
  const service = await start(main, { env: { DATA_DIR: folder } })
  const server = serverPid(folder)
  const { pid, gone } = await busy(folder)
  process.kill(pid, 'SIGKILL')
  await sleep(100)
  process.kill(server, 'SIGINT')
  await gone
  await worksAgain(service, folder, server)
})

test('a process that goes on computing when its server was killed does not keep a new one from starting', async () => {
  const folder = dataFolder()
  const service = await start(main, { env: { DATA_DIR: folder } })
  const server = serverPid(folder)
  const { pid, gone } = await busy(folder)
  process.kill(server, 'SIGKILL')
  await worksAgain(service, folder, server)
  await gone
  while (runs(pid)) await sleep(20)
})

test('a lock of the socket and a pid file whose number went to another process of the account are cleared', async () => {
  const folder = dataFolder()
  await (await start(main, { env: { DATA_DIR: folder } })).kill('SIGTERM')
  const other = spawn('sleep', ['1000'], { ...account, stdio: 'ignore' })
  for (const name of ['cluster/postmaster.pid', 'socket/.s.PGSQL.5432.lock']) {
    writeFileSync(join(folder, name), `${other.pid}\n${join(folder, 'cluster')}\n`)
    if (account.uid !== undefined) chownSync(join(folder, name), account.uid, account.uid)
  }
  const next = await start(main, { env: { DATA_DIR: folder } })
  other.kill()
  expect(next.address).not.toBe('')
  expect(await next.kill('SIGTERM')).toBe(0)
})

test('a copy of a folder in use is refused with what to do, and starts when that is done or its origin has ended', async () => {
  const folder = dataFolder()
  const first = await start(main, { env: { DATA_DIR: folder } })
  const copies = [1, 2].map(() => dataFolder())
  for (const copy of copies) execFileSync('cp', ['-a', `${folder}/.`, copy])
  const [one = '', two = ''] = copies
  const refused = await start(main, { env: { DATA_DIR: one } })
  expect(await refused.ended).toBe(2)
  expect(refused.said()).toContain(`${one}/cluster is a copy of ${folder}/cluster made while that was in use`)
  const named = /delete (\S+) to try/.exec(refused.said())?.[1] ?? ''
  rmSync(named)
  const beside = await start(main, { env: { DATA_DIR: one } })
  expect(beside.address).not.toBe('')
  expect((await fetch(`${first.address}/readyz`)).status).toBe(200)
  expect(await beside.kill('SIGTERM')).toBe(0)
  expect(await first.kill('SIGTERM')).toBe(0)
  const later = await start(main, { env: { DATA_DIR: two } })
  expect(later.address).not.toBe('')
  expect(await later.kill('SIGTERM')).toBe(0)
})

test('a copy made by another account is refused with the command that hands it over', async () => {
  const folder = dataFolder()
  await (await start(main, { env: { DATA_DIR: folder } })).kill('SIGTERM')
  const copy = dataFolder()
  execFileSync('cp', ['-r', `${folder}/.`, copy])
  if (runsAsRoot) {
    const refused = await start(main, { env: { DATA_DIR: copy } })
    expect(await refused.ended).toBe(2)
    const command = /chown -R \d+ '[^']+'/.exec(refused.said())?.[0] ?? ''
    expect(command).toContain(copy)
    execFileSync('sh', ['-c', command])
  }
  const next = await start(main, { env: { DATA_DIR: copy } })
  expect(readFileSync(join(copy, 'cluster/PG_VERSION'), 'utf8')).toBe('18\n')
  expect(next.address).not.toBe('')
  expect(await next.kill('SIGTERM')).toBe(0)
})

/** One that has ended and was not yet taken note of by its parent does not run. */
function runs(pid: number): boolean {
  try {
    return !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, 'utf8'))
  } catch {
    return false
  }
}
