// npm run bench:files: the worst results files against another person's lot page, asked every 50 ms, and against memory.
import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { fillLots } from './files/lots.ts'
import { goodFile, worstFiles } from './files/worst.ts'
import { megabytes, started } from './process.ts'

const folder = mkdtempSync(join(tmpdir(), 'cordsift-files-'))
console.log('drawing every cord of a lot of 1,000,000 …')
const filled = await fillLots(folder)
const service = await started(folder)
await measured('a quiet service', () => sleep(3000, 'nothing sent'))
for (const { name, body } of worstFiles()) await measured(name, () => send(body))
await measured('100,000 good rows', () => send(goodFile(1, 100_000)))
await measured('240,000 good rows', () => send(goodFile(100_001, 340_000)))
await service.stop()
rmSync(folder, { recursive: true, force: true })

type Figures = { pages: number[]; before: number; most: number; ended: boolean }

/** Runs an act while another person looks at a small lot, and says how long that page took and what the process held. */
async function measured(name: string, act: () => Promise<string>): Promise<void> {
  const before = megabytes(service.pid, 'VmRSS')
  const figures: Figures = { pages: [], before, most: before, ended: false }
  const looking = [look(figures), weigh(figures)]
  const begun = performance.now()
  const answer = await act()
  const seconds = ((performance.now() - begun) / 1000).toFixed(1)
  figures.ended = true
  await Promise.all(looking)
  const pages = figures.pages.sort((a, b) => a - b)
  const middle = pages[Math.floor(pages.length / 2)] ?? 0
  const longest = pages.at(-1) ?? 0
  console.log(
    `${name}: ${answer} after ${seconds} s; lot page ${pages.length} times, median ${middle.toFixed(0)} ms, longest ${longest.toFixed(0)} ms; memory +${figures.most - before} MB (from ${before} MB)`,
  )
  await sleep(1000)
}

/** Asks every 50 ms, whether or not the page before has come. */
async function look(figures: Figures): Promise<void> {
  const open: Promise<void>[] = []
  while (!figures.ended) {
    open.push(page(figures))
    await sleep(50)
  }
  await Promise.all(open)
}

async function page({ pages }: Figures): Promise<void> {
  const begun = performance.now()
  const answer = await fetch(`${service.address}/lots/${filled.small}`, { headers: { cookie: filled.officer } })
  await answer.text()
  if (answer.status !== 200) throw new Error(`the lot page answered ${answer.status}`)
  pages.push(performance.now() - begun)
}

async function weigh(figures: Figures): Promise<void> {
  for (; !figures.ended; await sleep(20)) figures.most = Math.max(figures.most, megabytes(service.pid, 'VmRSS'))
}

async function send(body: Uint8Array): Promise<string> {
  const form = new FormData()
  form.append('key', randomUUID())
  form.append('file', new File([Uint8Array.from(body)], 'results.csv'))
  const headers = { cookie: filled.inspector, origin: service.address }
  const path = `${service.address}/lots/${filled.large}/file`
  const answer = await fetch(path, { method: 'POST', body: form, headers, redirect: 'manual' })
  const text = await answer.text()
  const said = /<b>([^<]*)<\/b>/.exec(text)?.[1]?.replace(/\s+/g, ' ') ?? ''
  return `${answer.status} ${said}`.trim()
}
