// Round trips between the service and its database that a request takes, counted where they happen: on the wire.
import { randomUUID } from 'node:crypto'
import { afterAll, expect, test } from 'vitest'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { openPool } from '../../db/connect.ts'
import { ownLogin } from '../../db/login.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, failing, testedLot, toTest } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { wireTo } from '../support/wire.ts'

const { db, address } = await freshDatabase()
const three = await threePeople(db)
const open = await drawnLot(db, three, { size: 40 })
const first = (await toTest(db, open))[0]
const done = await testedLot(db, three, 0, { size: 40 })
const stages = [
  { sampleSize: 3, acceptanceNumber: 0, rejectionNumber: 2 },
  { sampleSize: 6, acceptanceNumber: 1, rejectionNumber: 2 },
]
const bad = await drawnLot(db, three, { size: 40, plan: { kind: 'double', stages } })
for (const position of (await toTest(db, bad)).slice(0, 3))
  await recordResult(db, three.inspector, bad, { key: randomUUID(), position, ...failing })
// 40 cords at 4.0: 13 cords of 20 are a first fetch (MIL-STD-105E, Tables I and II-A, read)
const inSeries = await drawnLot(db, three, {
  size: 40,
  plan: { kind: 'zero-acceptance', sampleSize: 20, acceptanceNumber: 0 },
  terms: { acceptanceQualityLimit: '4.0' },
})
const wire = await wireTo(address)
const pool = openPool(await ownLogin(wire.address), 1)
afterAll(() => pool.close())
const { appAs } = testApp(pool.db)
const [inspector, manager] = [await appAs(three.inspector), await appAs(three.manager)]

const typed = {
  kind: 'tested',
  crosstalkSide: 'above',
  crosstalkMargin: '4.6',
  returnLossSide: 'above',
  returnLossMargin: '3.1',
  wireMap: 'in-order',
  visual: 'in-order',
}

const byScript = { 'hx-request': 'true' }

async function recordNext(headers: Record<string, string>, lotId = open): Promise<Response> {
  const [position] = await toTest(db, lotId)
  return inspector.post(`/lots/${lotId}/bench`, { ...typed, key: randomUUID(), position: String(position) }, headers)
}

type Request = { what: string; most: number; send(): Promise<Response>; status: number }

// `most` is what was decided for the page: not what one happens to count.
const requests: Request[] = [
  { what: 'a cord recorded at the bench', most: 7, send: () => recordNext({}), status: 303 },
  { what: 'the same by the page’s script, with the next cord', most: 7, send: () => recordNext(byScript), status: 200 },
  { what: 'the bench', most: 4, send: () => inspector.get(`/lots/${open}/bench?after=${first}`), status: 200 },
  { what: 'a cord of a first fetch', most: 7, send: () => recordNext(byScript, inSeries), status: 200 },
  { what: 'the bench in a first fetch', most: 4, send: () => inspector.get(`/lots/${inSeries}/bench`), status: 200 },
  { what: 'a lot in its first fetch', most: 6, send: () => manager.get(`/lots/${inSeries}`), status: 200 },
  { what: 'the decision', most: 8, send: () => manager.get(`/lots/${done}/decision`), status: 200 },
  { what: 'the decision on a lot rejected', most: 8, send: () => manager.get(`/lots/${bad}/decision`), status: 200 },
  { what: 'a lot rejected', most: 6, send: () => manager.get(`/lots/${bad}`), status: 200 },
  { what: 'a lot', most: 6, send: () => manager.get(`/lots/${open}`), status: 200 },
  { what: 'the lots', most: 6, send: () => manager.get('/lots'), status: 200 },
]

test.each(requests)('$what takes $most round trips at most', async ({ most, send, status }) => {
  expect((await send()).status).toBe(status) // nothing is asked for the first time
  const trips = await wire.trips(send)
  expect(trips).toBeGreaterThan(0)
  expect(trips).toBeLessThanOrEqual(most)
})
