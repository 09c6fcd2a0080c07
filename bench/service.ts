// npm run bench:service: how long the service takes to start, first and later, and what its process holds in memory when idle.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { megabytes, type Started, started } from './process.ts'

const folder = mkdtempSync(join(tmpdir(), 'cordsift-bench-'))

const first = await started(folder)
say('first start, empty folder', first)
await first.stop()
const later = []
for (let turn = 1; turn <= 5; turn++) {
  const service = await started(folder)
  later.push(service.milliseconds)
  if (turn < 5) await service.stop()
  else await measureMemory(service)
}
console.log(`later starts: ${later.sort((a, b) => a - b).join(', ')} ms`)
rmSync(folder, { recursive: true, force: true })

async function measureMemory(service: Started): Promise<void> {
  await sleep(3000)
  console.log(`memory, idle after the start: ${megabytes(service.pid, 'VmRSS')} MB`)
  const question = `${service.address}/?lot=480&limit=5`
  for (let asked = 0; asked < 200; asked++) await (await fetch(question)).text()
  await sleep(10_000)
  console.log(`memory, idle after 200 pages: ${megabytes(service.pid, 'VmRSS')} MB`)
  await service.stop()
}

function say(what: string, { milliseconds }: Started): void {
  console.log(`${what}: ${milliseconds} ms`)
}
