// node dist/bench/torture.js FOLDER RUNS SEED: kills the embedded PostgreSQL and its service in every way, and counts what was lost.
// Run by hand: it takes a minute or more. Anything lost, started wrongly or left over ends it with a failure.
import { type ChildProcess, spawn } from 'node:child_process'
import { chownSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import postgres from 'postgres'
import { account } from '../db/embedded/account.ts'
import { startEmbedded } from '../db/embedded/start.ts'

const ways = ['service', 'database', 'both', 'guard and service', 'foreign pid', 'second service', 'SIGTERM'] as const
type Way = (typeof ways)[number] | 'first start'

const [folderArgument = '', runs = '40', seed = '1', mode = 'judge'] = process.argv.slice(2)
if (folderArgument === '') throw new Error('Name a folder to torture: it is removed first')
const folder = resolve(folderArgument)
if (mode === 'write') await write()
else await judge()

/** The tortured service: numbers in a table, one after the other, each said aloud once it is acknowledged. */
async function write(): Promise<void> {
  const server = await startEmbedded(folder)
  const sql = postgres({ ...server.address, max: 4, onnotice: () => {} })
  process.once('SIGTERM', async () => {
    await sql.end({ timeout: 5 })
    await server.stop()
    process.exit(0)
  })
  await sql`create table if not exists numbers (n bigint generated always as identity primary key)`
  process.stdout.write('ready\n')
  const worker = async () => {
    for (;;) {
      const [row] = await sql<{ n: string }[]>`insert into numbers default values returning n`.catch(() =>
        sleep(50).then(() => []),
      )
      if (row) process.stdout.write(`${row.n}\n`)
    }
  }
  await Promise.all([worker(), worker(), worker()])
}

type Writer = { child: ChildProcess; said: () => string[]; ready: Promise<boolean>; ended: Promise<unknown> }

async function judge(): Promise<void> {
  const acknowledged = new Set<string>()
  const starts: number[] = []
  const chance = chances(Number(seed))
  for (let run = 1; run <= Number(runs); run++) {
    const torture = run <= 6 ? 'first start' : (ways[Math.floor(chance() * ways.length)] ?? 'service')
    if (run <= 6) {
      rmSync(folder, { recursive: true, force: true })
      acknowledged.clear()
    }
    const begun = Date.now()
    const writer = begin()
    if (torture !== 'first start') {
      if (!(await writer.ready)) throw new Error(`Run ${run}: no start\n${writer.said().join('\n')}`)
      starts.push(Date.now() - begun)
    }
    await sleep(torture === 'first start' ? 40 + chance() * 700 : 300 + chance() * 1200)
    await hurt(torture, writer)
    await writer.ended
    for (const line of writer.said()) if (/^\d+$/.test(line)) acknowledged.add(line)
    console.log(`${run} ${torture}: ${acknowledged.size} acknowledged`)
  }
  await settle(acknowledged, starts)
}

async function hurt(way: Way, writer: Writer): Promise<void> {
  const server = serverPid()
  switch (way) {
    case 'first start':
    case 'service':
      writer.child.kill('SIGKILL')
      return
    case 'database':
      kill(server)
      await sleep(1500) // the service starts it again, and goes on
      writer.child.kill('SIGKILL')
      return
    case 'both':
      kill(server)
      writer.child.kill('SIGKILL')
      return
    case 'guard and service':
      kill(parentOf(server))
      writer.child.kill('SIGKILL')
      return
    case 'foreign pid':
      writer.child.kill('SIGTERM')
      await writer.ended
      writeFileSync(pidFile(), `${process.pid}\n`)
      if (account.uid !== undefined) chownSync(pidFile(), account.uid, account.uid)
      return
    case 'second service': {
      const second = begin()
      if (await second.ready) throw new Error('A second service worked on the same folder')
      writer.child.kill('SIGTERM')
      return
    }
    case 'SIGTERM':
      writer.child.kill('SIGTERM')
      return
  }
}

/** Everything that was acknowledged is there, once; and no server is left. */
async function settle(acknowledged: Set<string>, starts: number[]): Promise<void> {
  const server = await startEmbedded(folder)
  const sql = postgres({ ...server.address, max: 1, onnotice: () => {} })
  const kept = new Set((await sql<{ n: string }[]>`select n from numbers`).map(({ n }) => n))
  await sql.end()
  await server.stop()
  const lost = [...acknowledged].filter((n) => !kept.has(n))
  const ordered = starts.sort((a, b) => a - b)
  console.log(`${acknowledged.size} acknowledged, ${lost.length} lost, server left: ${existsSync(pidFile())}`)
  console.log(`starts: median ${ordered[Math.floor(ordered.length / 2)]} ms, worst ${ordered.at(-1)} ms`)
  process.exitCode = lost.length === 0 && !existsSync(pidFile()) ? 0 : 1
}

function begin(): Writer {
  mkdirSync(folder, { recursive: true })
  const child = spawn(process.execPath, [fileURLToPath(import.meta.url), folder, '0', '0', 'write'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let text = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (piece: Buffer) => (text += piece.toString()))
  const ended = new Promise((done) => child.once('close', done))
  const ready = (async () => {
    while (!text.includes('ready\n') && child.exitCode === null && child.signalCode === null) await sleep(5)
    return text.includes('ready\n')
  })()
  // a last line without its end was cut off by the kill: nobody was told that number
  return { child, said: () => text.split('\n').slice(0, -1), ready, ended }
}

function pidFile(): string {
  return join(folder, 'cluster/postmaster.pid')
}

function serverPid(): number {
  return existsSync(pidFile()) ? Number.parseInt(readFileSync(pidFile(), 'utf8'), 10) : 0
}

function parentOf(pid: number): number {
  return existsSync(`/proc/${pid}/stat`)
    ? Number(/\) \S (\d+)/.exec(readFileSync(`/proc/${pid}/stat`, 'utf8'))?.[1])
    : 0
}

function kill(pid: number): void {
  if (pid > 1) process.kill(pid, 'SIGKILL')
}

/** The same moments again for the same seed: a linear congruential generator, enough to scatter kills. */
function chances(start: number): () => number {
  let state = start >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}
