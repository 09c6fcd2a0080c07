// npm run bench:service: how long the service takes to start, first and later, and what its process holds in memory when idle.
import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { projectRoot } from '../db/root.ts'

const main = join(projectRoot, 'dist/app/main.js')
const folder = mkdtempSync(join(tmpdir(), 'cordsift-bench-'))

const first = await started()
say('first start, empty folder', first)
await first.stop()
const later = []
for (let turn = 1; turn <= 5; turn++) {
  const service = await started()
  later.push(service.milliseconds)
  if (turn < 5) await service.stop()
  else await measureMemory(service)
}
console.log(`later starts: ${later.sort((a, b) => a - b).join(', ')} ms`)
rmSync(folder, { recursive: true, force: true })

type Started = { pid: number; address: string; milliseconds: number; stop(): Promise<unknown> }

async function started(): Promise<Started> {
  const begun = performance.now()
  const child = spawn(process.execPath, ['--enable-source-maps', main], {
    env: { PATH: process.env.PATH, PORT: '0', DATA_DIR: folder, LOG_LEVEL: 'warn' },
    stdio: ['ignore', 'inherit', 'pipe'],
  })
  const ended = new Promise((resolve) => child.once('exit', resolve))
  const address = await new Promise<string>((resolve, reject) => {
    let text = ''
    child.stderr.on('data', (piece: Buffer) => {
      text += piece.toString()
      const ready = /Cordsift is ready: (\S+)/.exec(text)?.[1]
      if (ready !== undefined) resolve(ready)
    })
    child.once('exit', () => reject(new Error(text)))
  })
  const milliseconds = Math.round(performance.now() - begun)
  return {
    pid: child.pid ?? 0,
    address,
    milliseconds,
    stop: () => {
      child.kill('SIGTERM')
      return ended
    },
  }
}

async function measureMemory(service: Started): Promise<void> {
  await sleep(3000)
  console.log(`memory, idle after the start: ${residentMegabytes(service.pid)} MB`)
  const question = `${service.address}/?lot=480&limit=5`
  for (let asked = 0; asked < 200; asked++) await (await fetch(question)).text()
  await sleep(10_000)
  console.log(`memory, idle after 200 pages: ${residentMegabytes(service.pid)} MB`)
  await service.stop()
}

function say(what: string, { milliseconds }: Started): void {
  console.log(`${what}: ${milliseconds} ms`)
}

/** Of the Node process alone; PostgreSQL's own processes are not in it. */
function residentMegabytes(pid: number): number {
  const kilobytes = Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1])
  return Math.round(kilobytes / 1024)
}
