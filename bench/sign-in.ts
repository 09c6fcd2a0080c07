// npm run bench:sign-in: what other pages take while a stranger signs in 400 times, 16 at once, with ever new names.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { started } from './process.ts'

const SIGN_INS = 400
const AT_ONCE = 16
const PAGES = ['/lots', '/suppliers', '/?lot=480&limit=5']

const folder = mkdtempSync(join(tmpdir(), 'cordsift-bench-'))
const service = await started(folder)
const cookie = await firstManager()
for (const page of PAGES) await ask(page) // compiled and cached before anything is measured

const quiet = new Map<string, number[]>()
for (let turn = 0; turn < 40; turn++) await measureInto(quiet)

const busy = new Map<string, number[]>()
const statuses = new Map<number, number>()
const begun = performance.now()
let left = SIGN_INS
let going = true
const strangers = Promise.all(Array.from({ length: AT_ONCE }, stranger)).then(() => {
  going = false
})
while (going) await measureInto(busy)
await strangers
const seconds = (performance.now() - begun) / 1000

console.log(`${SIGN_INS} sign-ins, ${AT_ONCE} at once: ${seconds.toFixed(1)} s; answers ${counted(statuses)}`)
for (const page of PAGES) {
  const [before, during] = [quiet.get(page) ?? [], busy.get(page) ?? []]
  const times = (median(during) / median(before)).toFixed(2)
  console.log(
    `${page}: quiet median ${median(before).toFixed(1)} ms; meanwhile median ${median(during).toFixed(1)} ms (${times} times), longest ${Math.max(...during).toFixed(1)} ms, asked ${during.length} times`,
  )
}
await service.stop()
rmSync(folder, { recursive: true, force: true })

/** Makes the first manager with the example by the printed link; returns the session's cookie. */
async function firstManager(): Promise<string> {
  const password = 'a bench in the sun'
  const form = { name: 'Bea Measurer', password, passwordAgain: password, start: 'example' }
  const link = /http\S+\/set-up\/\S+/.exec(await linkSaid())?.[0] ?? ''
  const answer = await send(link, form)
  if (answer.status !== 303) throw new Error(`set-up: ${answer.status} ${await answer.text()}`)
  return answer.headers.get('set-cookie')?.split(';')[0] ?? ''
}

/** The line with the link may come a moment after the one with the address. */
async function linkSaid(): Promise<string> {
  while (!service.said().includes('/set-up/')) await sleep(10)
  return service.said()
}

async function stranger(): Promise<void> {
  while (left > 0) {
    const name = `Nobody ${left--}`
    const { status } = await send(`${service.address}/sign-in`, { name, password: 'a wrong guess' })
    statuses.set(status, (statuses.get(status) ?? 0) + 1)
  }
}

async function send(url: string, form: Record<string, string>): Promise<Response> {
  const headers = { origin: service.address }
  return fetch(url, { method: 'POST', headers, body: new URLSearchParams(form), redirect: 'manual' })
}

async function measureInto(times: Map<string, number[]>): Promise<void> {
  for (const page of PAGES) times.set(page, [...(times.get(page) ?? []), await ask(page)])
}

async function ask(page: string): Promise<number> {
  const asked = performance.now()
  const answer = await fetch(`${service.address}${page}`, { headers: { cookie } })
  await answer.text()
  if (answer.status !== 200) throw new Error(`${page}: ${answer.status}`)
  return performance.now() - asked
}

function median(values: number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
}

function counted(all: Map<number, number>): string {
  return [...all].map(([status, times]) => `${times} × ${status}`).join(', ')
}
