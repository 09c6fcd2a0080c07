// Large lots: what a signature and each page read of them, counted by the database, and how large the evidence becomes.
import { beforeAll, describe, expect, test } from 'vitest'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { evidenceRows, frozenEvidence, rowsAreAsSigned } from '../../../app/lots/evidence/read.ts'
import { factsOf, lotRecordOf } from '../../../app/lots/record/lot.ts'
import { fillLargeLot, fillRegister, recordOpenCords } from '../../../bench/large-lots.ts'
import { type Client, testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { digestByHand } from '../../support/digest-by-hand.ts'
import { signature } from '../../support/lot.ts'
import { textOf } from '../../support/page-text.ts'
import { threePeople } from '../../support/people.ts'
import { rowReader } from '../../support/rows-read.ts'

const { db, owner, address } = await freshDatabase()
const three = await threePeople(db)
await fillRegister(owner)
const reading = await rowReader({ address })
const size = 12_000
let lotId: number
let manager: Client
let inspector: Client
beforeAll(async () => {
  lotId = await fillLargeLot(owner, { size, sampleSize: size, oneIn: 100 })
  await owner`analyze`
  const { appAs } = testApp(reading.db)
  manager = await appAs(three.manager)
  inspector = await appAs(three.inspector)
})

/** Pages of a thousand cords, a thousand marks of a figure, and what the lookups of both touch. */
const few = 6000

const pageRead = async (client: Client, path: string) => {
  let status = 0
  let html = ''
  const rows = await reading.rowsReadBy(async () => {
    const answer = await client.get(path)
    status = answer.status
    html = await answer.text()
  })
  expect(status).toBe(200)
  return { rows, html, text: textOf(html) }
}

test('a lot’s own facts read no cord', async () => {
  expect(await reading.rowsReadBy(() => lotRecordOf(reading.db, lotId))).toBeLessThan(10)
  expect((await lotRecordOf(db, lotId)).progress).toMatchObject({
    sampleRecorded: size,
    sampleNonconforming: 120,
    toDo: 0,
  })
})

describe('before the signature', () => {
  test('the decision page reads what it shows', async () => {
    const { rows, html, text } = await pageRead(manager, `/lots/${lotId}/decision`)
    expect(rows).toBeLessThan(few)
    expect(text).toContain('Of 12,000 recorded cords the first 1,000 of the draw are shown')
    expect(html).toContain('Crosstalk: margins of 1,000 cords')
  })

  test('a bench where nothing is left looks for no cord', async () => {
    expect((await pageRead(inspector, `/lots/${lotId}/bench`)).rows).toBeLessThan(10)
  })
})

describe('after the signature', () => {
  beforeAll(async () => {
    await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
  })

  test('the evidence is a head of some thousand bytes, whatever the lot holds', async () => {
    const [kept] = await owner`select octet_length(evidence::text) as bytes from decisions where lot_id = ${lotId}`
    expect(kept?.bytes).toBeLessThan(8000)
    const head = await frozenEvidence(db, lotId, 'sample')
    expect(head.rows).toMatchObject({ count: size, sha256: await digestByHand(owner, lotId) })
    expect(await rowsAreAsSigned(db, head)).toBe(true)
  })

  test.each(['', '/evidence', '/evidence?after=5000', '/taken-out', '/draw', '/cords/11999', '/bench'])(
    'the page %s reads what it shows',
    async (page) => {
      const reader = page === '/bench' ? inspector : manager
      expect((await pageRead(reader, `/lots/${lotId}${page}`)).rows).toBeLessThan(few)
    },
  )

  test('its evidence is read a thousand at a time, each once, to the last', async () => {
    const head = await frozenEvidence(db, lotId, 'sample')
    const seen: number[] = []
    for (let after = 0, more = true; more; after = seen.at(-1) ?? size) {
      const rows = await evidenceRows(db, head, { after, atMost: 1000 })
      seen.push(...rows.map(({ position }) => position))
      more = rows.length > 0
    }
    expect(seen).toEqual(Array.from({ length: size }, (_, at) => at + 1))
  })

  test('is checked when it is asked, and says so', async () => {
    const asked = textOf(await (await manager.get(`/lots/${lotId}/evidence`)).text())
    expect(asked).toContain('Check all 12,000 results against it (takes some seconds)')
    expect(asked).not.toContain('still give this digest')
    const checked = textOf(await (await manager.get(`/lots/${lotId}/evidence?check=rows`)).text())
    expect(checked).toContain('still give this digest')
  })
})

test('a lot half of which does not conform keeps every position, in a few bytes each', async () => {
  const half = await fillLargeLot(owner, { size, sampleSize: size, oneIn: 2 })
  await decideLot(db, three.manager, half, { ...(await signature(db, half)), outcome: 'accepted' })
  const [kept] = await owner`
    select evidence ->> 'nonconforming' as positions, octet_length(evidence::text) as bytes from decisions where lot_id = ${half}`
  expect(kept?.positions).toBe(Array.from({ length: size / 2 }, (_, at) => 2 * at + 2).join(','))
  // Positions below 1,000,000 have six digits: at most 7 bytes for each of at most 500,000 gaps, 3.5 MB, far from the 268 MB of one jsonb.
  expect(kept?.bytes).toBeLessThan(8000 + 7 * (size / 2))
})

test('a screening of few cords of a large lot reads no other’s entries for the sample’s evidence', async () => {
  const screened = await fillLargeLot(owner, { size, sampleSize: 100, oneIn: 40 })
  await decideLot(db, three.manager, screened, { ...(await signature(db, screened)), outcome: 'screened' })
  // Of the cords that the screening adds the database has no statistics yet.
  expect(await reading.rowsReadBy(() => lotRecordOf(reading.db, screened))).toBeLessThan(10)
  await recordOpenCords(owner, screened, { size, oneIn: 40 })
  await owner`analyze`
  expect(await factsOf(db, screened)).toMatchObject({ progress: { toDo: 0 }, decision: { recorded: 100 } })
  const { rows, text } = await pageRead(manager, `/lots/${screened}/evidence`)
  expect(text).toContain('Results of 100 cords')
  expect(text).toContain('still give this digest')
  expect(rows).toBeLessThan(2000)
})
