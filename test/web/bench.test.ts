// The bench, one cord and a results file as their pages answer: what is to be mended, what came too late, what is not this person's.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { drawnInOrder } from '../../app/lots/record/pick-list.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, testedLot, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { addTo, threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)
let inspector: Client
let colleague: Client
let manager: Client
beforeAll(async () => {
  inspector = await appAs(three.inspector)
  colleague = await appAs(await addTo(db, 'Ina Inspector', 'inspector'))
  manager = await appAs(three.manager)
})

const reading = {
  kind: 'tested',
  crosstalkSide: 'above',
  crosstalkMargin: '3,1',
  returnLossSide: 'above',
  returnLossMargin: '2.25',
  wireMap: 'in-order',
  visual: 'in-order',
}
const form = (position: number, changes: Record<string, string> = {}) => ({
  key: randomUUID(),
  position: String(position),
  ...reading,
  ...changes,
})
const recorded = async (lotId: number) => (await drawnInOrder(db, lotId)).filter((cord) => cord.result).length

describe('the bench', () => {
  test.each([
    [{ crosstalkSide: '' }, 'Choose above the limit or short of the limit'],
    [{ crosstalkMargin: '' }, 'Type how many dB the tester shows'],
    [{ crosstalkSide: 'short', crosstalkMargin: '200' }, 'A crosstalk margin is between −100 and 100 dB'],
    [{ crosstalkMargin: '-200', crosstalkSide: '' }, 'A crosstalk margin is between −100 and 100 dB'],
    [{ returnLossMargin: 'NaN' }, 'Type a number of dB such as 1.7 or 0,04'],
    [{ wireMap: '' }, 'Say whether the wire map is in order'],
    [{ returnLossSide: '', returnLossMargin: '' }, 'no reading is not a conforming reading'],
    [{ kind: 'gone', note: ' ' }, 'Say what happened'],
    [{ kind: 'missing', note: 'not there' }, 'Choose what is the matter'],
    [{ position: '0' }, 'This form is not whole'],
  ])('asks again for %j and keeps the rest as it was typed', async (changes, sentence) => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    const sent = Object.entries(form(position, { spool: 'S 12', ...changes })).filter(([, value]) => value !== '')
    const answer = await inspector.post(`/lots/${lotId}/bench`, Object.fromEntries(sent))
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(textOf(page)).toContain(sentence)
    if (sent.some(([, value]) => value === '2.25') && !('kind' in changes)) expect(page).toContain('value="2.25"')
    if (!('kind' in changes)) expect(page).toContain('value="S 12"')
    expect(await recorded(lotId)).toBe(0)
  })

  test('answers the page’s own script with the next cord, which is what it would have been led to', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0, next = 0] = await toTest(db, lotId)
    const sent = form(position)
    const answer = await inspector.post(`/lots/${lotId}/bench`, sent, { 'hx-request': 'true' })
    expect([answer.status, answer.headers.get('location')]).toEqual([200, null])
    const page = await answer.text()
    expect(page).toContain(`name="position" value="${next}"`)
    const led = await (await inspector.get(`/lots/${lotId}/bench?after=${position}`)).text()
    const withoutKeys = (html: string) => html.replace(/[\da-f]{8}-[\da-f-]{27}/g, 'key')
    expect(withoutKeys(page)).toBe(withoutKeys(led))
    expect((await inspector.post(`/lots/${lotId}/bench`, sent, { 'hx-request': 'true' })).status).toBe(200)
    expect(await recorded(lotId)).toBe(1)
  })

  test('takes a form that is sent twice, or again after its answer was lost, once', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    const sent = form(position)
    for (const answer of [
      await inspector.post(`/lots/${lotId}/bench`, sent),
      await inspector.post(`/lots/${lotId}/bench`, sent),
    ])
      expect([answer.status, answer.headers.get('location')]).toEqual([303, `/lots/${lotId}/bench?after=${position}`])
    expect(await recorded(lotId)).toBe(1)
  })

  test('tells the second of two inspectors who was first, and goes on with the next cord', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0, next = 0] = await toTest(db, lotId)
    await inspector.post(`/lots/${lotId}/bench`, form(position))
    const answer = await colleague.post(`/lots/${lotId}/bench`, form(position, { crosstalkSide: 'short' }))
    expect(answer.status).toBe(409)
    const page = textOf(await answer.text())
    expect(page).toContain(`Nothing of this form was recorded. Cord ${position} was recorded by Ivo Inspector`)
    expect(page).toContain(`Record cord ${next}`)
    expect(await recorded(lotId)).toBe(1)
  })

  test('gives a form that is to be mended back with its own cord, though a colleague recorded that one meanwhile', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0, next = 0] = await toTest(db, lotId)
    await colleague.post(`/lots/${lotId}/bench`, form(position))
    const answer = await inspector.post(`/lots/${lotId}/bench`, form(position, { crosstalkMargin: '6,x6' }))
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(textOf(page)).toContain(`Cord ${position} of lot ${lotId}`)
    expect(textOf(page)).not.toContain(`Record cord ${next}`)
    expect(page).toContain('value="6,x6"')
  })

  test('never puts the readings of one cord on the form of another', async () => {
    const lotId = await drawnLot(db, three)
    const drawn = await toTest(db, lotId)
    const other = [1, 2, 3, 4, 5, 6, 7].find((position) => !drawn.includes(position)) ?? 0
    const used = form(drawn[0] ?? 0)
    await inspector.post(`/lots/${lotId}/bench`, used)
    const answer = await inspector.post(`/lots/${lotId}/bench`, form(other, { key: used.key, crosstalkMargin: '6,66' }))
    expect(answer.status).toBe(409)
    const page = await answer.text()
    expect(textOf(page)).toContain('Nothing of this form was recorded. This form was sent before for something else')
    expect(page).not.toContain('value="6,66"')
  })

  test('refuses a cord that was not drawn', async () => {
    const lotId = await drawnLot(db, three)
    const drawn = await toTest(db, lotId)
    const other = [1, 2, 3, 4, 5, 6, 7].find((position) => !drawn.includes(position)) ?? 0
    const answer = await inspector.post(`/lots/${lotId}/bench`, form(other))
    expect(answer.status).toBe(422)
    expect(textOf(await answer.text())).toContain(`Cord ${other} was not drawn`)
  })

  test('takes over spool and tester, and the carton’s mark as long as the next cord lies in the same carton', async () => {
    const lotId = await drawnLot(db, three, {
      size: 40,
      plan: { kind: 'every-cord', sampleSize: 40, acceptanceNumber: 40 },
    })
    const marks = { carton: 'C 1', spool: 'S 12', testerSerial: 'T-204' }
    for (const position of [8, 9, 10]) await inspector.post(`/lots/${lotId}/bench`, form(position, marks))
    const sameCarton = await (await inspector.get(`/lots/${lotId}/bench?after=8`)).text()
    expect(sameCarton).not.toContain('value="C 1"') // the next to test is 11, in carton 2
    expect(sameCarton).toContain('value="S 12"')
    expect(sameCarton).toContain('value="T-204"')
    await inspector.post(`/lots/${lotId}/bench`, form(1, marks))
    expect(await (await inspector.get(`/lots/${lotId}/bench?after=1`)).text()).toContain('value="C 1"')
  })

  test('is the inspector’s', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    expect((await manager.get(`/lots/${lotId}/bench`)).status).toBe(403)
    expect((await manager.post(`/lots/${lotId}/bench`, form(position))).status).toBe(403)
    expect((await manager.get(`/lots/${lotId}/file`)).status).toBe(403)
    const ruling = { key: randomUUID(), entryNumber: '1', ruling: 'reserve', reason: 'x' }
    expect((await inspector.post(`/lots/${lotId}/cords/${position}/ruling`, ruling)).status).toBe(403)
    const recount = { key: randomUUID(), size: '23', reason: 'x' }
    expect((await manager.post(`/lots/${lotId}/cords/${position}/recount`, recount)).status).toBe(403)
    expect((await inspector.get('/lots/9999/bench')).status).toBe(404)
  })
})

describe('one cord', () => {
  test('is corrected on the entry that was seen, with a reason, and both entries are shown', async () => {
    const lotId = await testedLot(db, three, 0)
    const [cord] = await drawnInOrder(db, lotId)
    const path = `/lots/${lotId}/cords/${cord?.position}`
    const correction = { ...reading, entryNumber: '1', crosstalkMargin: '0,3' }
    const unsaid = await inspector.post(`${path}/correction`, { ...correction, key: randomUUID(), reason: '' })
    expect(unsaid.status).toBe(422)
    expect(textOf(await unsaid.text())).toContain('Say why the entry is corrected')
    const reason = 'Typed the neighbour’s figure'
    expect((await inspector.post(`${path}/correction`, { ...correction, key: randomUUID(), reason })).status).toBe(303)
    const page = textOf(await (await inspector.get(path)).text())
    expect(page).toContain('crosstalk +0.3 dB')
    expect(page).toContain(`crosstalk +${clear.crosstalkMargin} dB`)
    expect(page).toContain(reason)
    const stale = await colleague.post(`${path}/correction`, { ...correction, key: randomUUID(), reason: 'Mine' })
    expect(stale.status).toBe(409)
  })

  test('that was not drawn has no page', async () => {
    const lotId = await drawnLot(db, three)
    const drawn = await toTest(db, lotId)
    const other = [1, 2, 3, 4, 5, 6, 7].find((position) => !drawn.includes(position)) ?? 0
    expect((await inspector.get(`/lots/${lotId}/cords/${other}`)).status).toBe(404)
    expect((await inspector.get(`/lots/${lotId}/cords/x`)).status).toBe(404)
  })
})

describe('a results file', () => {
  const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'

  test('is uploaded, or its bad rows are each named by line and nothing is recorded', async () => {
    const lotId = await drawnLot(db, three)
    const [first = 0, second = 0] = await toTest(db, lotId)
    const good = `${heading}\n${first},1.7,-0.04,in order,in order,T-204`
    const bad = `${good}\n${second},,3,in order,in order,T-204\n999,1,1,in order,in order,`
    const refused = await inspector.post(`/lots/${lotId}/file`, { key: randomUUID(), text: bad })
    expect(refused.status).toBe(422)
    const page = textOf(await refused.text())
    expect(page).toContain('Line 3: Give the crosstalk margin')
    expect(page).toContain('Line 4: Cord 999 was not drawn')
    expect(page).toContain(bad.replaceAll('\n', ' '))
    expect(await recorded(lotId)).toBe(0)
    const taken = await inspector.post(`/lots/${lotId}/file`, {
      key: randomUUID(),
      text: '',
      file: new File([good], 'results.csv'),
    })
    expect(taken.status).toBe(303)
    expect(await recorded(lotId)).toBe(1)
  })

  test('of nothing is asked for', async () => {
    const lotId = await drawnLot(db, three)
    const answer = await inspector.post(`/lots/${lotId}/file`, { key: randomUUID(), text: ' ', file: new File([], '') })
    expect(answer.status).toBe(422)
    expect(textOf(await answer.text())).toContain('Choose a file, or paste its lines below')
  })
})

test('the list of a large draw is shown in parts', async () => {
  const lotId = await drawnLot(db, three, {
    size: 1500,
    plan: { kind: 'every-cord', sampleSize: 1500, acceptanceNumber: 1500 },
  })
  const first = await (await inspector.get(`/lots/${lotId}/draw`)).text()
  expect(first).toContain(`/lots/${lotId}/draw?after=1000`)
  expect(first.match(/class="box"/g)).toHaveLength(1000)
  const second = await (await inspector.get(`/lots/${lotId}/draw?after=1000`)).text()
  expect(second.match(/class="box"/g)).toHaveLength(500)
  expect(second).not.toContain('?after=')
})
