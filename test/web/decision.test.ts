// The decision's pages: what stands there before and after the verdict, what a signature needs, and what it freezes.
import { beforeAll, describe, expect, test } from 'vitest'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot, clear, drawnLot, failing, recordAll, testedLot, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { addTo, PASSWORD, threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)
let manager: Client
let second: Client
let inspector: Client
beforeAll(async () => {
  manager = await appAs(three.manager)
  second = await appAs(await addTo(db, 'Moe Manager', 'manager'))
  inspector = await appAs(three.inspector)
})

const read = async (path: string) => textOf(await (await manager.get(path)).text())

/** The form as the page of the lot holds it now. */
async function form(lotId: number, changes: Record<string, string> = {}) {
  const { version } = await factsOf(db, lotId)
  return { version: String(version), outcome: 'accepted', reason: '', password: PASSWORD, ...changes }
}

// The plan of these lots is 6 of 24 with at most 1 allowed.
describe('before there is a verdict', () => {
  test('count and no bound are shown, and nobody can decide', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    await recordResult(db, three.inspector, lotId, { key: crypto.randomUUID(), position, ...failing })
    const record = await read(`/lots/${lotId}`)
    expect(record).toContain('No verdict yet: 1 of 6 recorded, 1 nonconforming.')
    expect(record).not.toContain('confidence')
    expect((await manager.get(`/lots/${lotId}/decision`)).status).toBe(409)
    expect((await manager.post(`/lots/${lotId}/decision`, await form(lotId))).status).toBe(409)
  })
})

const bearer = { riskBearer: 'Ida Keel', riskFirm: 'Quay Test House', riskDocument: 'letter of 3 May' }

describe('the signature', () => {
  test('of a concession needs person, firm and document of who bears the risk', async () => {
    const lotId = await testedLot(db, three, 2)
    const sent = { outcome: 'conceded', reason: 'r', use: 'u', cords: '5', until: '2027-01-31' }
    for (const missing of ['riskBearer', 'riskFirm', 'riskDocument'] as const) {
      const answer = await manager.post(
        `/lots/${lotId}/decision`,
        await form(lotId, { ...sent, ...bearer, [missing]: '' }),
      )
      expect(answer.status).toBe(422)
      expect(await answer.text()).toContain(`id="field-${missing}-problem"`)
    }
  })

  test.each([
    [{ password: '' }, 'Type your password'],
    [{ password: 'not the password' }, 'The password is not right'],
    [{ outcome: 'none' }, 'Choose what is to become of the lot'],
    [{ outcome: 'returned' }, 'The plan says accept: give a reason to decide otherwise'],
    [
      { outcome: 'conceded', reason: 'r', use: 'u', cords: '5', until: '2027-01-31' },
      'Say who bears the risk and agreed',
    ],
    [
      { outcome: 'conceded', reason: 'r', ...bearer, use: 'u', cords: '25', until: '2027-01-31' },
      'The lot has 24 cords',
    ],
    [{ outcome: 'conceded', reason: 'r', ...bearer, use: 'u', cords: '5', until: '2027-02-30' }, 'Say until when'],
    [{ outcome: 'conceded', reason: 'r', ...bearer, use: 'u', cords: '5', until: '0000-01-01' }, 'Say until when'],
    [{ outcome: 'conceded', reason: 'r', ...bearer, use: 'u', cords: '5', until: '9999-12-32' }, 'Say until when'],
  ])('is asked for again with %j; the password is never sent back', async (changes, sentence) => {
    const lotId = await testedLot(db, three, 0)
    const answer = await manager.post(`/lots/${lotId}/decision`, await form(lotId, changes))
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(textOf(page)).toContain(sentence)
    expect(page).not.toContain(PASSWORD)
    if ('use' in changes) expect(page).toContain('value="u"')
    expect((await factsOf(db, lotId)).state).toBe('drawn')
  })

  test('of two managers at once counts once; the other is told', async () => {
    const lotId = await testedLot(db, three, 0)
    const sent = await form(lotId)
    const answers = await Promise.all([manager, second].map((each) => each.post(`/lots/${lotId}/decision`, sent)))
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 409])
    const late = await inspector.post(`/lots/${lotId}/bench`, {
      key: crypto.randomUUID(),
      position: '1',
      kind: 'gone',
      note: 'Its place is empty',
    })
    expect(late.status).toBe(409)
    expect(textOf(await late.text())).toContain(`Lot ${lotId} is accepted and cannot be tested`)
  })

  test('on a page that is no longer true is refused', async () => {
    const lotId = await testedLot(db, three, 2)
    expect((await manager.post(`/lots/${lotId}/decision`, await form(lotId, { version: '1' }))).status).toBe(409)
  })

  test('of who recorded is refused', async () => {
    const lotId = await drawnLot(db, three)
    const alone = await testApp(db, { separateDuties: false }).appAs(three.manager)
    const [position = 0] = await toTest(db, lotId)
    await recordResult(db, { ...three.manager, separateDuties: false }, lotId, {
      key: crypto.randomUUID(),
      position,
      ...clear,
    })
    await recordAll(db, three, lotId)
    const answer = await manager.post(`/lots/${lotId}/decision`, await form(lotId))
    expect(answer.status).toBe(403)
    expect(textOf(await answer.text())).toContain('another manager has to decide')
    expect((await alone.post(`/lots/${lotId}/decision`, await form(lotId))).status).toBe(303)
    expect(await read(`/lots/${lotId}`)).toContain('the firm has switched that rule off')
  })
})

describe('after the signature', () => {
  test('a concession is read with all its terms', async () => {
    const lotId = await testedLot(db, three, 2)
    const terms = { ...bearer, use: 'Indicator boards', cords: '22', until: '2027-03-31' }
    const sent = await form(lotId, { outcome: 'conceded', reason: 'None others to be had', ...terms })
    expect((await manager.post(`/lots/${lotId}/decision`, sent)).status).toBe(303)
    const record = await read(`/lots/${lotId}`)
    for (const said of [
      'None others to be had',
      'Ida Keel, Quay Test House; letter of 3 May',
      terms.use,
      '22 cords, until 31 March 2027',
    ])
      expect(record).toContain(said)
    expect(record).toContain('24 received = 22 kept + 2 sent back + 0 missing')
  })

  test('the evidence stays as it was, whatever is corrected in the item or read later', async () => {
    const lotId = await testedLot(db, three, 2)
    await manager.post(`/lots/${lotId}/decision`, await form(lotId, { outcome: 'screened' }))
    const before = await read(`/lots/${lotId}/evidence`)
    expect(before).toContain('Results of 6 cords')
    await recordAll(db, three, lotId, 1)
    expect(await read(`/lots/${lotId}/evidence`)).toBe(before)
    expect((await manager.get(`/lots/${lotId}/evidence/screening`)).status).toBe(404)
    const closing = await form(lotId, { outcome: 'sorted' })
    expect((await manager.post(`/lots/${lotId}/closing`, { ...closing, outcome: 'accepted' })).status).toBe(422)
    expect((await manager.post(`/lots/${lotId}/closing`, closing)).status).toBe(303)
    expect(await read(`/lots/${lotId}/evidence/screening`)).toContain('Results of 24 cords')
    expect(await read(`/lots/${lotId}`)).toContain('24 received = 21 kept + 3 sent back + 0 missing')
    expect((await manager.post(`/lots/${lotId}/closing`, closing)).status).toBe(409)
  })

  test('a withdrawn lot stays readable with its reason', async () => {
    const lotId = await announcedLot(db, three)
    const { version } = await factsOf(db, lotId)
    const path = `/lots/${lotId}/withdrawal`
    expect((await manager.post(path, { version: String(version), reason: ' ' })).status).toBe(422)
    expect((await manager.post(path, { version: String(version), reason: 'Announced twice' })).status).toBe(303)
    expect(await read(`/lots/${lotId}`)).toContain('Withdrawn. Announced twice')
  })
})
