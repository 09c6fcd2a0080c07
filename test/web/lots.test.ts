// A lot's pages as they answer: what is to be mended, what is stale, whose act it is, what is shown to whom.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { factsOf } from '../../app/lots/record/lot.ts'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot, drawnLot, plannedLot, receivedLot, testedLot } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { appAs, anybody } = testApp(db)
const clients = new Map<string, Client>()
beforeAll(async () => {
  for (const person of Object.values(three)) clients.set(person.role, await appAs(person))
})
const as = (role: string): Client => clients.get(role) ?? anybody

const read = async (role: string, path: string) => textOf(await (await as(role).get(path)).text())

async function announcement(changes: Record<string, string> = {}) {
  const { supplier, item } = await factsOf(db, await announcedLot(db, three))
  return {
    key: randomUUID(),
    supplierId: String(supplier.id),
    itemId: String(item.id),
    size: '480',
    cartons: '12',
    cordsInCarton: '40',
    productionMark: 'week 31',
    purchaseOrder: 'PO 4711',
    ...changes,
  }
}

describe('announcing', () => {
  test.each([
    [{ size: '0' }, 'A whole number of cords from 1 to 1,000,000'],
    [{ size: '1e9' }, 'A whole number of cords from 1 to 1,000,000'],
    [{ size: '1000000000' }, 'A whole number of cords from 1 to 1,000,000'],
    [{ size: 'NaN' }, 'A whole number of cords from 1 to 1,000,000'],
    [{ cartons: '11' }, '480 cords at 40 in a carton fill 12 cartons, not 11'],
    [{ supplierId: '' }, 'Choose a supplier'],
    [{ supplierId: '999' }, 'Choose a supplier of the register'],
    [{ productionMark: ' ' }, 'Give the production mark'],
    [{ purchaseOrder: 'x'.repeat(121) }, 'At most 120 characters'],
    [{ key: 'none' }, 'This form is not whole'],
  ])('asks again for %j, keeps what was typed and adds nothing', async (changes, sentence) => {
    const form = await announcement(changes)
    const before = await read('officer', '/lots')
    const answer = await as('officer').post('/lots', form)
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(textOf(page)).toContain(sentence)
    expect(page).toContain(`value="${form.cordsInCarton}"`)
    expect(await read('officer', '/lots')).toBe(before)
  })

  test('sent twice makes one lot', async () => {
    const form = await announcement()
    const first = await as('officer').post('/lots', form)
    const again = await as('officer').post('/lots', form)
    expect(first.status).toBe(303)
    expect(again.headers.get('location')).toBe(first.headers.get('location'))
  })

  test('is corrected on the version that was seen', async () => {
    const lotId = await announcedLot(db, three)
    const { key, ...form } = await announcement({ version: '1', productionMark: 'week 32' })
    const path = `/lots/${lotId}/correction`
    expect((await as('officer').post(path, { ...form, size: '0' })).status).toBe(422)
    expect((await as('officer').post(path, form)).status).toBe(303)
    expect(await read('officer', `/lots/${lotId}`)).toContain('week 32')
    const stale = await as('officer').post(path, form)
    expect(stale.status).toBe(409)
    expect(textOf(await stale.text())).toContain('was changed since this page was opened')
  })
})

describe('receiving and planning', () => {
  test('a difference is kept beside the announced number', async () => {
    const lotId = await announcedLot(db, three) // 24 announced
    const count = { version: '1', size: '22', cartons: '3', cordsInCarton: '10', note: 'One carton wet' }
    expect((await as('inspector').post(`/lots/${lotId}/receipt`, { ...count, size: '-3' })).status).toBe(422)
    expect((await as('inspector').post(`/lots/${lotId}/receipt`, count)).status).toBe(303)
    const record = await read('manager', `/lots/${lotId}`)
    expect(record).toContain('24 cords in 3 cartons of 10')
    expect(record).toContain('22 counted, 2 short of the 24 announced. Remarks: One carton wet')
    expect((await as('inspector').post(`/lots/${lotId}/receipt`, count)).status).toBe(409)
  })

  test('an unreadable wish of the officer is named beside its gap', async () => {
    const lotId = await receivedLot(db, three)
    const answer = await as('officer').get(`/lots/${lotId}/plan?own=500/1&percent=10`)
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(textOf(page)).toContain('A contract')
    expect(page).toContain('value="500/1"')
  })

  test.each([
    [{ sampleSize: '25' }, 'From 1 to 24 cords can be tested'],
    [{ sampleSize: '6', acceptanceNumber: '6' }, 'The acceptance number is from 0 to 5'],
    [{ kind: 'any' }, 'Choose a plan'],
  ])('a plan of %j is not frozen', async (changes, sentence) => {
    const lotId = await receivedLot(db, three)
    const form = { version: '2', kind: 'single', sampleSize: '6', acceptanceNumber: '1', ...changes }
    const answer = await as('officer').post(`/lots/${lotId}/plan`, form)
    expect(answer.status).toBe(422)
    expect(textOf(await answer.text())).toContain(sentence)
    expect((await factsOf(db, lotId)).plan).toBeUndefined()
  })

  test('a lot is drawn once', async () => {
    const lotId = await plannedLot(db, three)
    expect((await as('inspector').post(`/lots/${lotId}/draw`, {})).status).toBe(303)
    expect((await as('inspector').post(`/lots/${lotId}/draw`, {})).status).toBe(409)
  })
})

describe('whose act it is', () => {
  const acts = [
    { role: 'officer', path: '/lots/new', of: undefined },
    { role: 'officer', path: 'correction', of: announcedLot },
    { role: 'inspector', path: 'receipt', of: announcedLot },
    { role: 'inspector', path: 'bench', of: drawnLot },
    { role: 'inspector', path: 'file', of: drawnLot },
    { role: 'manager', path: 'withdrawal', of: announcedLot },
    { role: 'manager', path: 'decision', of: (...made: Parameters<typeof drawnLot>) => testedLot(made[0], made[1], 2) },
  ]

  test('the plan is read by everybody, and frozen by the officer alone', async () => {
    const lotId = await receivedLot(db, three)
    for (const other of ['inspector', 'manager']) {
      const answer = await as(other).get(`/lots/${lotId}/plan`)
      expect(answer.status).toBe(200)
      expect(await answer.text()).not.toContain('Review and freeze')
      const form = { version: '2', kind: 'every-cord', sampleSize: '24', acceptanceNumber: '24' }
      expect((await as(other).post(`/lots/${lotId}/plan`, form)).status).toBe(403)
    }
    expect(await (await as('officer').get(`/lots/${lotId}/plan`)).text()).toContain('Review and freeze')
  })

  test.each(acts)('$path is the $role’s page, and nobody else’s', async ({ role, path, of }) => {
    const full = of ? `/lots/${await of(db, three)}/${path}` : path
    for (const other of ['officer', 'inspector', 'manager'])
      expect((await as(other).get(full)).status, other).toBe(other === role ? 200 : 403)
    const stranger = await anybody.get(full)
    expect([stranger.status, stranger.headers.get('location')]).toEqual([
      303,
      `/sign-in?back=${encodeURIComponent(full)}`,
    ])
  })

  test('the record of a lot leads each person to his own act alone', async () => {
    const lotId = await plannedLot(db, three)
    expect(await read('inspector', `/lots/${lotId}`)).toContain('Draw the cords')
    expect(await read('inspector', `/lots/${lotId}/draw/review`)).toContain('Draw 6 of the 24 cords at random.')
    expect((await as('officer').get(`/lots/${lotId}/draw/review`)).status).toBe(403)
    expect((await factsOf(db, lotId)).state).toBe('planned')
    expect(await read('officer', `/lots/${lotId}`)).not.toContain('Draw the cords')
    expect(await read('officer', `/lots/${lotId}`)).toContain('To be drawn: with the warehouse inspector.')
    expect(await read('manager', `/lots/${lotId}`)).toContain('Withdraw this lot')
    expect(await read('inspector', `/lots/${lotId}`)).not.toContain('Withdraw this lot')
  })

  test('in a firm of one person the manager does everybody’s work', async () => {
    const alone = await testApp(db, { separateDuties: false }).appAs(three.manager)
    const lotId = await plannedLot(db, three)
    const record = textOf(await (await alone.get(`/lots/${lotId}`)).text())
    expect(record).toContain('Draw the cords')
    expect(record).not.toContain('with the warehouse inspector')
    expect((await alone.get('/lots/new')).status).toBe(200)
  })

  test('what is not there is said so', async () => {
    for (const path of ['/lots/999999', '/lots/0', '/lots/x', '/lots/99999999999/plan'])
      expect((await as('officer').get(path)).status, path).toBe(404)
  })
})

describe('an act too early', () => {
  test.each([
    ['announced', announcedLot, 'has not been received yet'],
    ['received', receivedLot, 'has no frozen plan yet'],
  ] as const)('on a lot %s says what must happen first, and leads to the lot', async (_, make, first) => {
    const lotId = await make(db, three)
    const answer = await as('inspector').post(`/lots/${lotId}/draw`, {})
    expect(answer.status).toBe(409)
    const html = await answer.text()
    expect(textOf(html)).toContain(`Lot ${lotId} ${first} and cannot be drawn`)
    expect(html).toContain(`<a class="button plain" href="/lots/${lotId}">`)
  })
})

test('deactivating an account shows on a page of its own what will happen, to a manager alone', async () => {
  const path = `/people/${three.inspector.id}/deactivation`
  expect(await read('manager', path)).toContain('is signed out everywhere at once')
  expect((await as('officer').get(path)).status).toBe(403)
  expect((await as('inspector').get('/lots')).status).toBe(200)
})

describe('the closed lots', () => {
  test('are filtered by the address, which the form shows again', async () => {
    const lotId = await announcedLot(db, three)
    await as('manager').post(`/lots/${lotId}/withdrawal`, { version: '1', reason: 'Announced twice' })
    const { supplier } = await factsOf(db, lotId)
    const shown = async (query: string) => (await as('officer').get(`/lots/closed${query}`)).text()
    expect(await shown('')).toContain(`href="/lots/${lotId}"`)
    const html = await shown(`?supplier=${supplier.id}&state=withdrawn&order=oldest`)
    expect(html).toContain(`href="/lots/${lotId}"`)
    expect(html).toContain(`<option value="${supplier.id}" selected`)
    expect(html).toContain('<option value="withdrawn" selected')
    expect(textOf(await shown(`?supplier=${supplier.id}&state=returned`))).toContain('No closed lot is found so.')
    for (const day of ['soon', '0000-01-01', '9999-12-31'])
      expect((await as('officer').get(`/lots/closed?page=x&order=no&from=${day}&until=${day}`)).status).toBe(200)
  })

  test('a page that the reader saw before is out of date, and one that is not there leads to the list', async () => {
    const lotId = await receivedLot(db, three)
    const old = { version: '1', kind: 'every-cord', sampleSize: '24', acceptanceNumber: '24' }
    const html = await (await as('officer').post(`/lots/${lotId}/plan`, old)).text()
    expect(textOf(html)).toContain('This page is out of date')
    const missing = await (await as('officer').get('/lots/999999/plan')).text()
    expect(missing).toContain('<a class="button plain" href="/lots">')
  })
})
