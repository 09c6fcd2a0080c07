// node dist/bench/losses.js embedded|managed RUNS SEED: takes the database from under eight writers again and again, and counts.
// Prints seed, date, commit and counts. An exit, a lost or doubled result or a writer that waits for ever is a failure.
import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { projectRoot } from '../app/kit/root.ts'
import { embedded, managed } from './losses/databases.ts'
import { makePlaces } from './losses/ground.ts'
import { hurt, type Recovery, type Victim } from './losses/hurt.ts'
import { startWriters } from './losses/writers.ts'

const WRITERS = 8
const CORDS_EACH = 25_000

const [kind = 'embedded', runs = '20', seed = '1'] = process.argv.slice(2)
if (kind !== 'embedded' && kind !== 'managed') throw new Error('Say embedded or managed')
const folder = mkdtempSync(join(tmpdir(), 'cordsift-losses-'))
const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: projectRoot, encoding: 'utf8' }).trim()
const begun = performance.now()
const server = kind === 'managed' ? await managed(folder) : undefined
const service = await startService(server === undefined ? { DATA_DIR: folder } : { DATABASE_URL: server.url })
try {
  await campaign(server ?? embedded(folder))
} finally {
  if (service.child.kill('SIGTERM')) await service.ended
  server?.stop()
  rmSync(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 })
}

async function campaign(victim: Victim): Promise<void> {
  const writers = startWriters(service.address, await makePlaces(victim.owner, WRITERS, CORDS_EACH))
  const chance = chances(Number(seed))
  const names = Object.keys(victim.ways)
  const recoveries = new Map<string, Recovery[]>(names.map((name) => [name, []]))
  for (let run = 0; run < Number(runs) && service.exits() === 0; run++) {
    await sleep(200 + chance() * 800)
    const way = names[Math.floor(chance() * names.length)] ?? ''
    recoveries.get(way)?.push(await hurt(victim, way, writers))
  }
  await writers.stop()
  const judged = await writers.judge(victim.owner)
  await victim.owner.end()
  report(recoveries, writers.answers, judged)
}

function report(
  recoveries: Map<string, Recovery[]>,
  answers: Map<string, number>,
  judged: { acknowledged: number; lost: number; doubled: number },
): void {
  const all = [...recoveries.values()].flat()
  const waiting = all.reduce((sum, recovery) => sum + recovery.waiting, 0)
  console.log(`${kind}, seed ${seed}, ${new Date().toISOString()}, commit ${commit}`)
  console.log(`losses ${all.length}, exits ${service.exits()}, writers ${WRITERS}, waiting for ever ${waiting}`)
  console.log(`acknowledged ${judged.acknowledged}, lost ${judged.lost}, doubled ${judged.doubled}`)
  const seconds = Math.round((performance.now() - begun) / 1000)
  console.log(`in ${seconds} s on a machine with load ${loadavg()[1]?.toFixed(1)}`)
  console.log(`answers: ${[...answers].map(([status, count]) => `${status} ${count}`).join(', ')}`)
  for (const [name, some] of recoveries)
    console.log(
      `${name}: ${some.length}; the database away for ${worst(some, 'away')} ms at worst, then ${worst(some, 'first')} ms until one writer and ${worst(some, 'until')} ms until each had a 303`,
    )
  const failed =
    service.exits() > 0 || waiting > 0 || judged.lost > 0 || judged.doubled > 0 || all.length < Number(runs)
  process.exitCode = failed ? 1 : 0
}

function worst(recoveries: Recovery[], what: 'away' | 'first' | 'until'): number {
  return recoveries.reduce((most, recovery) => Math.max(most, recovery[what]), 0)
}

type Service = { child: ChildProcess; address: string; ended: Promise<unknown>; exits(): number }

async function startService(env: Record<string, string>): Promise<Service> {
  const child = spawn(process.execPath, [join(projectRoot, 'dist/app/main.js')], {
    env: { PATH: process.env.PATH, PORT: '0', LOG_LEVEL: 'silent', ...env },
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  let text = ''
  child.stderr.on('data', (piece: Buffer) => (text += piece.toString()))
  const ended = new Promise((resolve) => child.once('exit', resolve))
  const address = () => /Cordsift is ready: (\S+)/.exec(text)?.[1]
  while (address() === undefined && child.exitCode === null) await sleep(20)
  if (address() === undefined) throw new Error(text)
  const exits = () => (child.exitCode === null && child.signalCode === null ? 0 : 1)
  return { child, address: address() ?? '', ended, exits }
}

/** The same moments again for the same seed: a linear congruential generator, enough to scatter losses. */
function chances(start: number): () => number {
  let state = start >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}
