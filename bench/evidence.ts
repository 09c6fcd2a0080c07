// npm run bench:evidence: lots of a million recorded cords signed, screened, closed and read; seconds, memory of the service, and pages.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import postgres from 'postgres'
import { hashPassword } from '../app/people/passwords/password.ts'
import { startEmbedded } from '../db/embedded/start.ts'
import { migrateDatabase } from '../db/migrate.ts'
import { fillLargeLot, fillRegister, recordOpenCords } from './large-lots.ts'
import { family, forgetPeak, megabytes, processorSeconds, type Started, started } from './process.ts'

const size = Number(process.argv[2] ?? 1_000_000)
const password = 'words for a measurement'
const folder = mkdtempSync(join(tmpdir(), 'cordsift-evidence-'))

console.log(`filling three lots of ${size} cords …`)
const lots = await filled()
const service = await started(folder)
const [inspector, manager] = [await signedIn(service, 'Person 2'), await signedIn(service, 'Person 3')]

await decided('every cord recorded, 1 in 100 does not conform', lots.whole, 'decision', 'accepted')
await decided('every cord recorded, 1 in 2 does not conform', lots.half, 'decision', 'accepted')
await decided('200 recorded, then a screening of the others', lots.sample, 'decision', 'screened')
await screened(lots.sample)
await decided('the same lot, screened and closed', lots.sample, 'closing', 'sorted')
await service.stop()
rmSync(folder, { recursive: true, force: true })

async function filled() {
  const server = await startEmbedded(folder)
  await migrateDatabase(server.address)
  const owner = postgres({ ...server.address, max: 1, onnotice: () => {} })
  for (const [at, role] of ['officer', 'inspector', 'manager'].entries())
    await owner`insert into people (name, role, password_hash) values (${`Person ${at + 1}`}, ${role}, ${await hashPassword(password)})`
  await fillRegister(owner)
  const whole = await fillLargeLot(owner, { size, sampleSize: size, oneIn: 100 })
  const half = await fillLargeLot(owner, { size, sampleSize: size, oneIn: 2 })
  const sample = await fillLargeLot(owner, { size, sampleSize: 200, oneIn: 1003 })
  await owner.end()
  await server.stop()
  return { whole, half, sample }
}

/** Behind the service's back, but by every rule of the tables: the bench would take days. */
async function screened(lot: number): Promise<void> {
  const owner = postgres({
    host: join(folder, 'socket'),
    port: 5432,
    user: 'postgres',
    database: 'postgres',
    max: 1,
    onnotice: () => {},
  })
  await recordOpenCords(owner, lot, { size, oneIn: 1003 })
  await owner`update lots set state = 'screened' where id = ${lot}`
  await owner.end()
}

type Client = { get(path: string): Promise<string>; post(path: string, form: Record<string, string>): Promise<void> }

async function signedIn({ address }: Started, name: string): Promise<Client> {
  const send = (path: string, form: Record<string, string>, cookie = '') =>
    fetch(address + path, {
      method: 'POST',
      body: new URLSearchParams(form),
      headers: { origin: address, cookie },
      redirect: 'manual',
    })
  const answer = await send('/sign-in', { name, password })
  const cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? ''
  return {
    async get(path) {
      const page = await fetch(address + path, { headers: { cookie } })
      if (page.status !== 200) throw new Error(`${path}: ${page.status}`)
      return page.text()
    },
    async post(path, form) {
      const { status } = await send(path, form, cookie)
      if (status !== 303) throw new Error(`${path}: ${status}`)
    },
  }
}

async function decided(what: string, lot: number, act: 'decision' | 'closing', outcome: string): Promise<void> {
  console.log(`\n${what} (lot ${lot})`)
  await pages(lot, ['', `/${act}`, '/bench'])
  const version = /name="version" value="(\d+)"/.exec(await manager.get(`/lots/${lot}/${act}`))?.[1] ?? ''
  const held = megabytes(service.pid, 'VmRSS')
  forgetPeak(service.pid)
  const [node, database] = [processorSeconds([service.pid]), databaseSeconds()]
  const begun = performance.now()
  await manager.post(`/lots/${lot}/${act}`, { version, outcome, password, reason: 'for a measurement' })
  const seconds = ((performance.now() - begun) / 1000).toFixed(1)
  const worked = `${(processorSeconds([service.pid]) - node).toFixed(1)} + ${(databaseSeconds() - database).toFixed(1)} s`
  const more = megabytes(service.pid, 'VmHWM') - held
  console.log(
    `  signed in ${seconds} s (processor: service + database ${worked}), at most ${more} MB more than ${held} MB`,
  )
  const evidence = act === 'closing' ? '/evidence/screening' : '/evidence'
  await pages(lot, ['', evidence, '/draw', `/cords/${size}`, '/taken-out', '/bench'])
  const asked = performance.now()
  const answer = await manager.get(`/lots/${lot}${evidence}?check=rows`)
  if (!answer.includes('still give this digest')) throw new Error(`the digest of lot ${lot} is not that of its rows`)
  console.log(`  every row checked against the digest: ${((performance.now() - asked) / 1000).toFixed(1)} s`)
}

function databaseSeconds(): number {
  return processorSeconds(family(Number.parseInt(readFileSync(join(folder, 'cluster/postmaster.pid'), 'utf8'), 10)))
}

/** The middle of five each, after one to warm up. */
async function pages(lot: number, paths: string[]): Promise<void> {
  for (const path of paths) {
    const times: number[] = []
    for (let turn = -1; turn < 5; turn++) {
      const begun = performance.now()
      await (path === '/bench' ? inspector : manager).get(`/lots/${lot}${path}`)
      if (turn >= 0) times.push(performance.now() - begun)
    }
    console.log(`  /lots/${lot}${path}: ${times.sort((a, b) => a - b)[2]?.toFixed(0)} ms`)
  }
}
