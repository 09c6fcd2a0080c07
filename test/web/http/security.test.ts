// What every answer carries, and what a change must prove.
import { Hono } from 'hono'
import { timeout } from 'hono/timeout'
import { beforeAll, describe, expect, test } from 'vitest'
import { faultOf } from '../../../app/kit/fault.ts'
import type { Env } from '../../../app/web/http/env.ts'
import { renderError } from '../../../app/web/http/errors.tsx'
import { readId } from '../../../app/web/http/read.ts'
import { late } from '../../../app/web/http/security.ts'
import { watchDisk } from '../../../app/web/ops/disk.ts'
import { openLog } from '../../../app/web/ops/log.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { PASSWORD, type ThreePeople, threePeople } from '../../support/people.ts'

const { db } = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
})

const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

describe('every answer', () => {
  test.each([
    ['/sign-in', 200],
    ['/nowhere', 404],
    ['/people', 303],
    ['/healthz', 200],
    ['/readyz', 200],
    ['/set-up/none', 404],
  ])('carries the policy without any exception: %s', async (path, status) => {
    const answer = await service.anybody.get(path)
    expect(answer.status).toBe(status)
    expect(answer.headers.get('content-security-policy')).toBe(policy)
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    expect(answer.headers.get('x-frame-options')).toBe('DENY')
    expect(answer.headers.get('x-request-id')).toMatch(/^[0-9a-f-]{36}$/)
  })

  test('is a page of ours that asks for nothing the policy forbids', async () => {
    const page = await (await service.anybody.get('/sign-in')).text()
    expect(page).toMatch(/^<!doctype html>/)
    expect(page).not.toMatch(/<[^>]+ style=|<style|<script(?![^>]* src="\/)|javascript:| on\w+="/)
    for (const [, path] of page.matchAll(/(?:href|src)="(\/[^"]+\.(?:css|js|svg))"/g)) {
      const asset = await service.anybody.get(path ?? '')
      expect([path, asset.status, asset.headers.get('cache-control')]).toEqual([
        path,
        200,
        'public, max-age=31536000, immutable',
      ])
    }
  })

  test('to somebody signed in is kept by no cache', async () => {
    const answer = await (await service.appAs(three.manager)).get('/people')
    expect(answer.headers.get('cache-control')).toBe('no-store')
  })

  test('to typed markup shows it as text', async () => {
    const answer = await service.anybody.post('/sign-in', { name: '"><script>alert(1)</script>', password: 'x' })
    const page = await answer.text()
    expect(page).toContain('&lt;script&gt;')
    expect(page).not.toContain('<script>')
  })
})

describe('a change', () => {
  const form = { name: 'Mara Manager', password: PASSWORD }
  test.each([
    ['another site', 'https://elsewhere.example'],
    ['another port', 'http://localhost:81'],
    ['nowhere', 'null'],
    ['an encrypted copy of the address', 'https://localhost'],
  ])('that comes from %s is refused', async (_, origin) => {
    const answer = await service.anybody.post('/sign-in', form, { origin })
    expect(answer.status).toBe(403)
    const page = await answer.text()
    expect(page).toContain('That form is not taken')
    expect(page).toContain('did not come from a page of this service')
  })

  test('that says not where it comes from is refused', async () => {
    const body = new URLSearchParams(form)
    expect(
      (await service.app.request('http://localhost/sign-in', { method: 'POST', body, headers: { host: 'localhost' } }))
        .status,
    ).toBe(403)
  })

  test('that comes from our own page under another of this machine’s names is taken', async () => {
    const headers = { host: '127.0.0.1:3000', origin: 'http://127.0.0.1:3000' }
    expect((await service.anybody.post('/sign-in', form, headers)).status).toBe(303)
  })

  test('must come from ORIGIN where that is set, whatever the Host says', async () => {
    const behind = testApp(db, { origin: 'https://cordsift.example' })
    expect((await behind.anybody.post('/sign-in', form)).status).toBe(403)
    expect((await behind.anybody.post('/sign-in', form, { origin: 'https://cordsift.example' })).status).toBe(303)
  })

  test('that is too large is not read', async () => {
    const large = { name: 'x'.repeat(300_000), password: 'x' }
    expect((await service.anybody.post('/sign-in', large)).status).toBe(413)
    expect((await (await service.appAs(three.manager)).post('/people', large)).status).toBe(413)
  })

  test('that arrives broken is an unreadable form, no fault', async () => {
    const headers = { host: 'localhost', origin: 'http://localhost', 'content-type': 'multipart/form-data; boundary=x' }
    const answer = await service.app.request('http://localhost/sign-in', {
      method: 'POST',
      body: 'not a form',
      headers,
    })
    expect(answer.status).toBe(400)
  })
})

describe('what breaks', () => {
  const app = new Hono<Env>()
  app.use(async (c, next) => {
    c.set('requestId', 'request-17')
    await next()
  })
  app.onError((error, c) => renderError(error, c, openLog('silent'), watchDisk()))
  app.get('/broken', () => {
    throw new Error('the secret of the house')
  })
  app.get('/slow', timeout(5, late), async () => new Promise<Response>(() => {}))
  app.get('/lots/:lot', (c) => c.text(String(readId(c, 'lot'))))

  test('is a page with the request’s number and nothing of the inside', async () => {
    const answer = await app.request('/broken')
    const page = await answer.text()
    expect(answer.status).toBe(500)
    expect(page).toContain('request-17')
    expect(page).not.toContain('secret')
  })

  test('or never comes to an end is answered all the same', async () => {
    const answer = await app.request('/slow')
    expect(answer.status).toBe(503)
    expect(await answer.text()).toContain('took too long')
  })

  test.each(['0', '-1', '1e3', '2147483648', '99999999999999999999', 'x', '1%00', '%E0%A4'])(
    'an id of %s is a page that is not there',
    async (id) => {
      expect((await app.request(`/lots/${id}`)).status).toBe(404)
    },
  )

  test('in the database is told apart: no for good, not now, and broken; without what was typed', async () => {
    const failed = (code: string) =>
      Object.assign(new Error('insert into people values (a secret)'), { code, constraint_name: 'people_name' })
    const wrapped = (code: string) => new Error('Failed query with (a secret)', { cause: failed(code) })
    expect(faultOf(wrapped('23505'))).toEqual({
      kind: 'refused-by-the-record',
      forTheLog: { code: '23505', constraint: 'people_name' },
    })
    expect(faultOf(wrapped('57014')).kind).toBe('busy')
    expect(faultOf(wrapped('CONNECTION_CLOSED')).kind).toBe('busy')
    const unknown = faultOf(wrapped('42P01'))
    expect(unknown.kind).toBe('unknown')
    expect(JSON.stringify(unknown)).not.toContain('secret')
  })
})

describe('while the database is being made ready', () => {
  const early = testApp(db, { database: () => undefined })

  test('the process is alive, not ready, and pages say so', async () => {
    expect((await early.anybody.get('/healthz')).status).toBe(200)
    expect((await early.anybody.get('/readyz')).status).toBe(503)
    const page = await early.anybody.get('/')
    expect([page.status, page.headers.get('retry-after')]).toEqual([503, '2'])
  })
})
