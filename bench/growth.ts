// npm run bench:growth: processor time of the pages that look over many lots, at 200, 2,000 and 6,000 closed lots; it should not grow.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import postgres from 'postgres'
import { openCompute, type Threads } from '../app/compute/compute.ts'
import { sharedBy } from '../app/compute/shared.ts'
import { openSessionFor } from '../app/people/sessions/sign-in.ts'
import { openLog } from '../app/web/ops/log.ts'
import { createApp } from '../app/web/server.ts'
import type { Db } from '../db/client.ts'
import { openPool } from '../db/connect.ts'
import { startEmbedded } from '../db/embedded/start.ts'
import { ownLogin } from '../db/login.ts'
import { migrateDatabase } from '../db/migrate.ts'
import { fillHistory } from './long-history.ts'
import { family, processorSeconds } from './process.ts'

const pages = ['/lots', '/suppliers/comparison', '/percentage', '/suppliers', '/suppliers/7', '/lots/calibration']
const sizes = [200, 2000, 6000]
const asks = 20

const measured = new Map<string, number[]>(pages.map((page) => [page, []]))
for (const lots of sizes) {
  const folder = mkdtempSync(join(tmpdir(), 'cordsift-growth-'))
  const server = await startEmbedded(folder)
  await migrateDatabase(server.address)
  const owner = postgres({ ...server.address, max: 1, onnotice: () => {} })
  await fillHistory(owner, { lots, cordsOfLot: 100, suppliers: 40, items: 5 })
  const { db, close } = openPool(await ownLogin(server.address))
  const ask = await askerOf(db)
  for (const page of pages) measured.get(page)?.push(await costOf(ask, page, folder))
  await close()
  await owner.end()
  await server.stop()
  rmSync(folder, { recursive: true, force: true })
}
console.log(
  `ms of processor time a page, node and PostgreSQL together, at ${sizes.join(', ')} lots; largest ÷ smallest`,
)
for (const [page, costs] of measured)
  console.log(
    `${page}: ${costs.map((cost) => cost.toFixed(1)).join(', ')}; ${((costs.at(-1) ?? 0) / (costs[0] ?? 1)).toFixed(2)}`,
  )

type Ask = (path: string) => Promise<Response>

/** Pages as an officer who is signed in gets them, with no socket and with sums in this very thread. */
async function askerOf(db: Db): Promise<Ask> {
  const threads: Threads = { most: 4, run: async (task, input) => task.work(input), end: async () => {} }
  const app = createApp({
    database: () => db,
    log: openLog('silent'),
    compute: openCompute(threads),
    forAll: sharedBy(threads),
    currency: 'EUR',
    separateDuties: true,
    origin: undefined,
    trustedProxies: [],
    demo: undefined,
    example: { setUp: async () => 'no example', names: [] },
  })
  const officer = { id: 1, name: 'Person 1', role: 'officer', separateDuties: true } as const
  const cookie = `cordsift=${await openSessionFor(db, officer)}`
  return async (path) => app.request(path, { headers: { host: 'localhost', cookie } })
}

/** Milliseconds of one answer, the middle of five rounds, after as many to warm up as one round asks. */
async function costOf(ask: Ask, page: string, folder: string): Promise<number> {
  const server = Number.parseInt(readFileSync(join(folder, 'cluster/postmaster.pid'), 'utf8'), 10)
  const postgresProcesses = () => processorSeconds(family(server))
  const rounds: number[] = []
  for (let round = -1; round < 5; round++) {
    const [node, database] = [process.cpuUsage(), postgresProcesses()]
    for (let asked = 0; asked < asks; asked++) {
      const response = await ask(page)
      await response.text()
      if (response.status !== 200) throw new Error(`${page} answered ${response.status}`)
    }
    const { user, system } = process.cpuUsage(node)
    if (round >= 0) rounds.push(((user + system) / 1000 + (postgresProcesses() - database) * 1000) / asks)
  }
  return rounds.toSorted((one, other) => one - other)[2] ?? Number.NaN
}
