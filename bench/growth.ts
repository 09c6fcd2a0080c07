// npm run bench:growth: processor time of the pages that look over many lots, at 200, 2,000 and 6,000 closed lots; it should not grow.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import postgres from 'postgres'
import { openPool } from '../db/connect.ts'
import { startEmbedded } from '../db/embedded/start.ts'
import { ownLogin } from '../db/login.ts'
import { migrateDatabase } from '../db/migrate.ts'
import { type Client, testApp } from '../test/support/app.ts'
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
  const client = await testApp(db).appAs({ id: 1, name: 'Person 1', role: 'officer', separateDuties: true })
  for (const page of pages) measured.get(page)?.push(await costOf(client, page, folder))
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

/** Milliseconds of one answer, the middle of five rounds, after as many to warm up as one round asks. */
async function costOf(client: Client, page: string, folder: string): Promise<number> {
  const server = Number.parseInt(readFileSync(join(folder, 'cluster/postmaster.pid'), 'utf8'), 10)
  const postgresProcesses = () => processorSeconds(family(server))
  const rounds: number[] = []
  for (let round = -1; round < 5; round++) {
    const [node, database] = [process.cpuUsage(), postgresProcesses()]
    for (let asked = 0; asked < asks; asked++) {
      const response = await client.get(page)
      await response.text()
      if (response.status !== 200) throw new Error(`${page} answered ${response.status}`)
    }
    const { user, system } = process.cpuUsage(node)
    if (round >= 0) rounds.push(((user + system) / 1000 + (postgresProcesses() - database) * 1000) / asks)
  }
  return rounds.toSorted((one, other) => one - other)[2] ?? Number.NaN
}
