// npm run bench:history: what is asked of a long record (1,000,000 results in 2,000 lots), each beside a bare round trip to the database.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import postgres from 'postgres'
import { alertsOf } from '../app/desk/alerts.ts'
import { lotsWaiting } from '../app/desk/work-list.ts'
import { compareSuppliers } from '../app/history/comparison.ts'
import { countedLots } from '../app/history/counted-lots.ts'
import { coverageOf } from '../app/history/coverage.ts'
import { marginsOf } from '../app/history/margins.ts'
import { percentageReport } from '../app/history/replay/report.ts'
import { markedSpools } from '../app/history/replay/spools.ts'
import { supplierHistoryOf } from '../app/history/supplier-page.ts'
import { runHere } from '../app/kit/task.ts'
import { openPool } from '../db/connect.ts'
import { startEmbedded } from '../db/embedded/start.ts'
import { ownLogin } from '../db/login.ts'
import { migrateDatabase } from '../db/migrate.ts'
import { fillHistory } from './long-history.ts'

const folder = mkdtempSync(join(tmpdir(), 'cordsift-history-'))
const server = await startEmbedded(folder)
await migrateDatabase(server.address)
const owner = postgres({ ...server.address, max: 1, onnotice: () => {} })
console.log('filling 2,000 lots of 500 cords …')
await fillHistory(owner, { lots: 2000, cordsOfLot: 500, suppliers: 40, items: 5 })
await owner.end()

const { db, close } = openPool(await ownLogin(server.address))
/** Queries of history, then pages that also compute: the aim of 50 ms is for the queries. */
const asked: [string, () => Promise<unknown>][] = [
  ['counts of one supplier’s lots', () => countedLots(db, { supplierId: 7 })],
  ['counts of all lots', () => countedLots(db, {})],
  ['margins of one supplier', () => marginsOf(db, 7)],
  ['counts by spool, everything', () => markedSpools(db, {})],
  ['list of lots', () => lotsWaiting(db)],
  ['page: one supplier', () => supplierHistoryOf(db, runHere, 7)],
  ['page: alerts', async () => alertsOf(db, runHere, await lotsWaiting(db), new Date())],
  ['page: calibration', () => coverageOf(db, runHere)],
  [
    'page: percentage sheet, one supplier',
    () => percentageReport(db, runHere, { supplierId: 7, percent: '10', allowed: 0, draw: 1 }),
  ],
  ['page: percentage sheet, everything', () => percentageReport(db, runHere, { percent: '10', allowed: 0, draw: 1 })],
  ['page: suppliers side by side', () => compareSuppliers(db, runHere)],
]
const bare = await median(() => db.execute(sql`select 1`))
console.log(`a bare round trip: ${bare.toFixed(2)} ms`)
for (const [name, ask] of asked) {
  const taken = await median(ask)
  console.log(`${name}: ${taken.toFixed(1)} ms, ${(taken / bare).toFixed(0)} round trips`)
}
await close()
await server.stop()
rmSync(folder, { recursive: true, force: true })

/** The middle of nine, after two to warm up. */
async function median(ask: () => Promise<unknown>): Promise<number> {
  const times: number[] = []
  for (let turn = -2; turn < 9; turn++) {
    const begun = performance.now()
    await ask()
    if (turn >= 0) times.push(performance.now() - begun)
  }
  return times.sort((a, b) => a - b)[4] ?? Number.NaN
}
