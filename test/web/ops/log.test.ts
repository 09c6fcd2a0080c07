// What the log tells of a request, and what it never tells; and whether the service says that it can work.
import { Writable } from 'node:stream'
import pino from 'pino'
import { beforeAll, describe, expect, test } from 'vitest'
import { offerSetUp } from '../../../app/people/accounts/set-up.ts'
import { openPool } from '../../../db/connect.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { PASSWORD, threePeople } from '../../support/people.ts'

const { db, address } = await freshDatabase()
const lines: Record<string, unknown>[] = []
const sink = new Writable({
  write(line, _, done) {
    lines.push(JSON.parse(String(line)))
    done()
  },
})
const service = testApp(db, { log: pino({ level: 'debug' }, sink) })

async function linesOf(act: () => Promise<unknown>): Promise<Record<string, unknown>[]> {
  lines.length = 0
  await act()
  return [...lines]
}

describe('the log', () => {
  let key: string | undefined
  beforeAll(async () => {
    key = await offerSetUp(db)
    await threePeople(db)
  })

  test('names the route and not the address, which may hold a key', async () => {
    const [line] = await linesOf(() => service.anybody.get(`/set-up/${key}`))
    expect(line).toMatchObject({ method: 'GET', route: '/set-up/:token', status: 200, level: 30 })
    expect(JSON.stringify(line)).not.toContain(key)
  })

  test('holds neither names nor passwords nor tokens of whoever signs in', async () => {
    let token = ''
    const told = await linesOf(async () => {
      const answer = await service.anybody.post('/sign-in', { name: 'Mara Manager', password: PASSWORD })
      token = /cordsift=([\w-]+)/.exec(answer.headers.get('set-cookie') ?? '')?.[1] ?? ''
    })
    expect(token).toHaveLength(43)
    expect(told).toHaveLength(1)
    for (const secret of ['Mara', PASSWORD, token]) expect(JSON.stringify(told)).not.toContain(secret)
  })

  test('tells a fault with the number that the page shows', async () => {
    const pool = openPool({ ...address, database: 'not_there' }, 1)
    const broken = testApp(pool.db, { log: pino({ level: 'debug' }, sink) })
    let page = ''
    const told = await linesOf(async () => {
      page = await (await broken.anybody.get('/sign-in')).text()
    })
    await pool.close()
    const fault = told.find((line) => line.msg === 'fault')
    expect(fault).toMatchObject({ level: 50, code: '3D000' }) // invalid_catalog_name: PostgreSQL manual, appendix A
    expect(page).toContain(String(fault?.requestId))
  })

  test('is not filled by probes', async () => {
    for (const path of ['/healthz', '/readyz'])
      expect(await linesOf(() => service.anybody.get(path))).toMatchObject([{ route: path, level: 20 }])
  })
})

describe('readiness', () => {
  test('ends when the database does not answer, and comes back with it', async () => {
    const pool = openPool({ ...address, database: 'not_there' }, 1)
    const lost = testApp(pool.db)
    expect((await lost.anybody.get('/readyz')).status).toBe(503)
    expect((await lost.anybody.get('/healthz')).status).toBe(200)
    await pool.close()
    expect((await service.anybody.get('/readyz')).status).toBe(200)
  })
})
