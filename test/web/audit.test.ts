// The audit's page: sentences, filters, sign-ins apart, nothing of the program's own.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, plannedLot, receivedLot, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { PASSWORD, threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { anybody, appAs } = testApp(db)
let manager: Client
let planned = 0
beforeAll(async () => {
  planned = await plannedLot(db, three, { plan: { kind: 'double', stages: [stage(3, 0, 2), stage(6, 1, 2)] } })
  await receivedLot(db, three)
  await drawnLot(db, three)
  manager = await appAs(three.manager)
  await anybody.post('/sign-in', { name: three.officer.name, password: PASSWORD, back: '/lots' })
})

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber: number) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})

async function entries(query: string): Promise<string[]> {
  const page = await (await manager.get(`/audit${query}`)).text()
  return [...page.matchAll(/<li id="line-\d+">(.*?)<\/li>/gs)].map(([, text]) => textOf(text ?? ''))
}

describe('the audit', () => {
  test('tells in sentences, with a plan as people write it and nothing of the program', async () => {
    const [frozen] = await entries(`?lot=${planned}&act=lot.planned`)
    expect(frozen).toContain(`${three.officer.name}, officer froze the plan: Lot ${planned}.`)
    expect(frozen).toContain('stages: 3/0, 6/1')
    const all = textOf(await (await manager.get('/audit')).text())
    expect(all).not.toMatch(/[{}[\]"]|[0-9a-f]{32}/)
  })

  test.each([
    ['by lot', () => `?lot=${planned}`, (entry: string) => entry.includes(`Lot ${planned}`)],
    [
      'by person',
      () => `?person=${encodeURIComponent(three.inspector.name)}`,
      (entry: string) => entry.includes(three.inspector.name),
    ],
    ['by act', () => '?act=lot.received', (entry: string) => entry.includes('received the lot')],
    ['by day', () => `?from=${new Date().toISOString().slice(0, 10)}`, () => true],
  ])('is filtered %s', async (_, query, holds) => {
    const found = await entries(query())
    expect(found.length).toBeGreaterThan(0)
    expect(found.filter((entry) => !holds(entry))).toEqual([])
  })

  test('by lot holds the entries of its cords too', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    await recordResult(db, three.inspector, lotId, { key: randomUUID(), position, ...clear })
    const found = await entries(`?lot=${lotId}`)
    expect(found[0]).toContain(`recorded the cord: Lot ${lotId}, cord ${position}.`)
    expect(found.filter((entry) => !new RegExp(`Lot ${lotId}[.,]`).test(entry))).toEqual([])
    expect((await manager.get('/audit?lot=x')).status).toBe(422)
  })

  test('shows nothing before the first day, and refuses a day that is none', async () => {
    expect(await entries('?until=2001-01-01')).toEqual([])
    const refused = ['from=soon', 'from=0000-01-01', 'until=0000-01-01', 'until=9999-12-31', 'until=2026-02-29']
    for (const days of refused) expect([days, (await manager.get(`/audit?${days}`)).status]).toEqual([days, 422])
    for (const days of ['from=1900-01-01', 'until=2999-12-31'])
      expect([days, (await manager.get(`/audit?${days}`)).status]).toEqual([days, 200])
  })

  test('keeps sign-ins apart', async () => {
    expect((await owner`select from audit where action = 'person.signed-in'`).length).toBeGreaterThan(0)
    expect((await entries('')).filter((entry) => entry.includes('signed in'))).toEqual([])
    const signIns = await entries('?signins=yes')
    expect(signIns.length).toBeGreaterThan(0)
    expect(signIns.filter((entry) => !/signed|wait/.test(entry))).toEqual([])
  })
})
