// npm run bench:recording: recorded cords a second beside pgbench's plain insert, processor time and bytes a cord, by the form and by file.
import { spawnSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import postgres from 'postgres'
import { family, processorSeconds, started } from './process.ts'
import { type Bench, fillBenches } from './recording/ground.ts'
import { at, type Share, sendAll } from './recording/senders.ts'

const cords = Number(process.argv[2] ?? 20_000)
const AT_ONCE = 8
const MANY = 50
const each = Math.ceil(cords / AT_ONCE)

const folder = mkdtempSync(join(tmpdir(), 'cordsift-recording-'))
console.log(`filling lots of ${MANY} inspectors …`)
const sizes = (number: number) => (number === 0 ? [each, 600, cords] : number < AT_ONCE ? [each, 600] : [600])
const benches = await fillBenches(
  folder,
  Array.from({ length: MANY }, (_, number) => sizes(number)),
)
const service = await started(folder)
const address = { host: join(folder, 'socket'), port: 5432, user: 'postgres', database: 'postgres' }
const owner = postgres({ ...address, max: 1, onnotice: () => {} })

await sendAll(service.address, sharesOf(benches.slice(0, AT_ONCE), 1, 1, 200)) // compiled before anything is measured
const plain = [plainInserts(AT_ONCE)]
await owner.unsafe('analyze') // what was filled is known to the database, as it is after a while
const before = await size()
const [node, database] = [processorSeconds([service.pid]), databaseSeconds()]
const { seconds, times } = await sendAll(service.address, sharesOf(benches.slice(0, AT_ONCE), 0, 1, each))
const [ofNode, ofDatabase] = [processorSeconds([service.pid]) - node, databaseSeconds() - database]
plain.push(plainInserts(AT_ONCE))
const rate = times.length / seconds
const beside = rate / (plain.reduce((sum, one) => sum + one, 0) / plain.length)
console.log(`by the form, ${AT_ONCE} inspectors, ${times.length} cords (load ${loadavg()[0]?.toFixed(1)}):`)
console.log(
  `  ${rate.toFixed(0)} cords a second, ${plain.map((one) => one.toFixed(0)).join(' and ')} plain inserts: ${beside.toFixed(4)}`,
)
console.log(`  p50 ${at(times, 0.5)}, p99 ${at(times, 0.99)} ms`)
console.log(
  `  processor a cord: service ${milli(ofNode, times.length)}, database ${milli(ofDatabase, times.length)} ms`,
)
const grown = ((await size()) - before) / times.length
await owner`delete from submissions`
const later = ((await size()) - before) / times.length
const [drawn] = await owner<{ bytes: number }[]>`
  select pg_total_relation_size('drawn_cords') / count(*)::float8 as bytes from drawn_cords`
console.log(
  `  bytes a cord: ${grown.toFixed(0)}, and ${later.toFixed(0)} a day later, when the keys of forms are forgotten; its place in the draw ${drawn?.bytes.toFixed(0)}`,
)

const many = await sendAll(service.address, sharesOf(benches, 1, 201, 300))
console.log(`by the form, ${MANY} inspectors: ${(many.times.length / many.seconds).toFixed(0)} cords a second`)
console.log(`  p50 ${at(many.times, 0.5)}, p99 ${at(many.times, 0.99)} ms`)

const unfiled = await size()
await sendFile(benches[0])
console.log(`by file, ${cords} cords, bytes a cord: ${(((await size()) - unfiled) / cords).toFixed(0)}, the draw apart`)
await owner.end()
await service.stop()
rmSync(folder, { recursive: true, force: true })

function sharesOf(of: Bench[], lot: number, from: number, to: number): Share[] {
  return of.map(({ cookie, lots }) => ({ cookie, lot: lots[lot] ?? lots[0] ?? 0, from, to }))
}

/** Every cord of the first inspector's last lot. */
async function sendFile(bench: Bench | undefined): Promise<void> {
  const rows = Array.from(
    { length: cords },
    (_, row) => `${row + 1};${3 + (row % 7)}.${row % 10};${3 + (row % 5)}.4;in order;in order;AT-0711;SP-${row % 40}`,
  )
  const heading = 'position;crosstalk margin;return loss margin;wire map;visual;tester serial;spool'
  const form = new FormData()
  form.append('key', randomUUID())
  form.append('file', new File([[heading, ...rows].join('\n')], 'results.csv'))
  const headers = { cookie: bench?.cookie ?? '', origin: service.address }
  const path = `${service.address}/lots/${bench?.lots[2]}/file`
  const answer = await fetch(path, { method: 'POST', body: form, headers, redirect: 'manual' })
  if (answer.status !== 303) throw new Error(`the file: ${answer.status} ${await answer.text()}`)
}

function milli(all: number, of: number): string {
  return ((all * 1000) / of).toFixed(2)
}

/** Transactions a second of one row each, by prepared statements over as many connections. */
function plainInserts(clients: number): number {
  const script = join(folder, 'plain.sql')
  writeFileSync(
    script,
    "insert into plain (lot, position, margin, said) values (1, :client_id, 4.1, 'a cord in order');\n",
  )
  const where = ['-h', address.host, '-U', address.user, 'plain']
  const ran = spawnSync(
    'pgbench',
    ['-n', '-M', 'prepared', '-c', String(clients), '-j', '2', '-T', '6', '-f', script, ...where],
    { encoding: 'utf8' },
  )
  const rate = /tps = ([\d.]+)/.exec(ran.stdout ?? '')?.[1]
  if (rate === undefined) throw new Error(`pgbench (a part of PostgreSQL) did not run: ${ran.stderr}`)
  return Number(rate)
}

async function size(): Promise<number> {
  await owner.unsafe('vacuum')
  const [row] = await owner<{ bytes: string }[]>`select pg_database_size(current_database()) as bytes`
  return Number(row?.bytes)
}

function databaseSeconds(): number {
  return processorSeconds(family(Number.parseInt(readFileSync(join(folder, 'cluster/postmaster.pid'), 'utf8'), 10)))
}
