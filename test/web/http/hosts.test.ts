// Under which names the service answers, and which verbs an address has.
import { describe, expect, test } from 'vitest'
import { missingOrigin } from '../../../app/web/http/hosts.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'

const { db } = await freshDatabase()
const service = testApp(db)
const behind = testApp(db, { origin: 'https://cordsift.example' })

const ask = (app: typeof service.app, host: string, path = '/sign-in') =>
  app.request(`http://localhost${path}`, { headers: { host } })

describe('without ORIGIN', () => {
  // Loopback: RFC 1122 3.2.1.3 and RFC 4291 2.5.3; localhost: RFC 6761 6.3.
  test.each(['localhost', 'LOCALHOST:3000', '127.0.0.1:3000', '127.8.9.1', '[::1]:80'])(
    '%s is answered',
    async (host) => {
      expect((await ask(service.app, host)).status).toBe(200)
    },
  )

  test.each([
    'evil.example',
    'localhost.evil.example',
    '192.0.2.7:3000',
    '127.0.0.1.evil.example',
    '[2001:db8::1]',
    '',
  ])('the name %s gets 421 with the line to set', async (host) => {
    const answer = await ask(service.app, host)
    expect(answer.status).toBe(421)
    const page = await answer.text()
    expect(page).toContain('Not the address of this service')
    expect(page).toContain(host === '' ? 'ORIGIN=http://your-address' : `ORIGIN=http://${host}`)
  })

  test('a change under another name is not carried out, though its Origin agrees with it', async () => {
    const headers = { host: 'evil.example', origin: 'http://evil.example' }
    expect((await service.anybody.post('/sign-in', { name: 'a', password: 'b' }, headers)).status).toBe(421)
  })

  test('probes are answered under any name', async () => {
    expect((await ask(service.app, '10.1.2.3:3000', '/healthz')).status).toBe(200)
  })
})

test('with ORIGIN a proxy may ask under a name of its own', async () => {
  expect((await ask(behind.app, '10.1.2.3:3000')).status).toBe(200)
})

describe('the start', () => {
  test.each([
    ['0.0.0.0', 'ORIGIN=http://this-machine:3000'],
    ['192.0.2.7', 'ORIGIN=http://192.0.2.7:3000'],
  ])('says what to set where HOST=%s and nothing names the address', (host, line) => {
    expect(missingOrigin({ host, port: 3000, origin: undefined })).toContain(line)
  })

  test('says nothing on this machine alone, nor where ORIGIN is set', () => {
    for (const host of ['127.0.0.1', 'localhost', '::1'])
      expect(missingOrigin({ host, port: 3000, origin: undefined })).toBeUndefined()
    expect(missingOrigin({ host: '0.0.0.0', port: 3000, origin: 'https://cordsift.example' })).toBeUndefined()
  })
})

describe('a verb that an address does not have', () => {
  // Allow with every 405: RFC 9110 15.5.6; HEAD wherever GET is: 9.1.
  test.each([
    ['PUT', '/sign-in', 'GET, HEAD, POST'],
    ['DELETE', '/lots/1', 'GET, HEAD'],
    ['POST', '/lots/1', 'GET, HEAD'],
    ['GET', '/sign-out', 'POST'],
    ['OPTIONS', '/proof', 'GET, HEAD'],
    ['POST', '/healthz', 'GET, HEAD'],
    ['PATCH', '/lots/1/bench', 'GET, HEAD, POST'],
  ])('%s %s: 405 with Allow', async (method, path, allow) => {
    const answer = await service.app.request(`http://localhost${path}`, { method, headers: { host: 'localhost' } })
    expect([answer.status, answer.headers.get('allow')]).toEqual([405, allow])
    expect(await answer.text()).toContain('not how this address is asked')
  })

  test('at an address that is not there is refused as a form from elsewhere', async () => {
    const answer = await service.app.request('http://localhost/nowhere', {
      method: 'PUT',
      headers: { host: 'localhost' },
    })
    expect([answer.status, answer.headers.get('allow')]).toEqual([403, null])
    expect((await service.anybody.get('/nowhere')).status).toBe(404)
  })
})
