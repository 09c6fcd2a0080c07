// The demonstration's accounts: only in the demonstration, only in an example database, only on this machine.
import { beforeAll, describe, expect, test } from 'vitest'
import { firms } from '../../../db/schema/people.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { type ThreePeople, threePeople } from '../../support/people.ts'

const example = await freshDatabase()
const real = await freshDatabase()
const demo = { password: 'said on the page' }
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(example.db)
  await threePeople(real.db)
  await example.owner`insert into firms (name, example) values ('Invented', true)`
  await real.db.insert(firms).values({ name: 'Real', example: false })
})

const form = () => ({ person: String(three.inspector.id), back: '/audit' })

describe('a door of the demonstration', () => {
  test('opens for each of its people, and the page says the password that signs', async () => {
    const service = testApp(example.db, { demo })
    const page = await (await service.anybody.get('/sign-in')).text()
    for (const { name } of Object.values(three)) expect(page).toContain(`Continue as ${name}`)
    expect(page).toContain(demo.password)
    const answer = await service.anybody.post('/sign-in/example', form())
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/audit'])
    const cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? ''
    const audit = await service.app.request('http://localhost/audit', { headers: { host: 'localhost', cookie } })
    expect(await audit.text()).toContain('Ivo Inspector')
  })

  test.each([
    ['where the service is no demonstration', () => testApp(example.db), undefined, 404],
    [
      'at an address that is not this machine',
      () => testApp(example.db, { demo, origin: 'http://demo.example' }),
      'demo.example',
      404,
    ],
    ['in a firm that is real', () => testApp(real.db, { demo }), undefined, 403],
  ])('stays shut %s', async (_, make, host, status) => {
    const service = make()
    const headers = host === undefined ? {} : { host, origin: `http://${host}` }
    expect((await service.anybody.post('/sign-in/example', form(), headers)).status).toBe(status)
    const page = await service.app.request('http://localhost/sign-in', { headers: { host: host ?? 'localhost' } })
    expect(await page.text()).not.toContain('Continue as Ivo')
  })

  test('that nobody stands behind stays shut', async () => {
    const service = testApp(example.db, { demo })
    expect((await service.anybody.post('/sign-in/example', { person: '9999' })).status).toBe(403)
    expect((await service.anybody.post('/sign-in/example', {})).headers.get('location')).toBe('/sign-in')
  })
})
