// An exception that nobody caught, in a living service: the log is told, the connections are new ones, work goes on.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { pathToFileURL } from 'node:url'
import { beforeAll, expect, test } from 'vitest'
import { compiled, dataFolder, look, type Service, start } from '../support/service.ts'

let main = ''
beforeAll(() => {
  main = compiled()
})

const connections = (folder: string) =>
  look(folder, async (sql) => {
    const rows = await sql<{ pid: number }[]>`select pid from pg_stat_activity where application_name = 'cordsift'`
    return rows.map(({ pid }) => pid)
  })

const ready = async ({ address }: Service) => (await fetch(`${address}/readyz`)).status

/** A service into which this test throws by a signal: SIGUSR2 from a timer, SIGWINCH as a promise that nobody waits for. */
async function startWithThrower(folder: string): Promise<Service> {
  const thrower = join(dataFolder(), 'thrower.mjs')
  writeFileSync(
    thrower,
    `process.on('SIGUSR2', () => setImmediate(() => { throw new TypeError('out of a timer') }))
     process.on('SIGWINCH', () => void Promise.reject(Object.assign(new Error('away'), { code: 'CONNECTION_CLOSED' })))`,
  )
  return start(main, { env: { DATA_DIR: folder, NODE_OPTIONS: `--import=${pathToFileURL(thrower)}` } })
}

test('the log is told, the connections are opened anew, and work goes on', async () => {
  const folder = dataFolder()
  const service = await startWithThrower(folder)
  for (let turn = 0; turn < 3; turn++) {
    expect(await ready(service)).toBe(200)
    const before = await connections(folder)
    expect(before.length).toBeGreaterThan(0)
    process.kill(service.pid, 'SIGUSR2')
    while ((await connections(folder)).some((pid) => before.includes(pid))) await sleep(20)
    expect(await ready(service)).toBe(200)
  }
  expect(service.said().match(/out of a timer/g)?.length).toBeGreaterThanOrEqual(3)
  expect(await service.kill('SIGTERM')).toBe(0)
})

test('a rejection that tells of a lost connection, with nobody left to hear it, is logged and costs no connection', async () => {
  const folder = dataFolder()
  const service = await startWithThrower(folder)
  expect(await ready(service)).toBe(200)
  const before = await connections(folder)
  process.kill(service.pid, 'SIGWINCH')
  while (!service.said().includes('nobody caught this')) await sleep(10)
  expect(await ready(service)).toBe(200)
  expect(await connections(folder)).toEqual(expect.arrayContaining(before))
  expect(await service.kill('SIGTERM')).toBe(0)
})
