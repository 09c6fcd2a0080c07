// What a browser may keep of which answer.
import { beforeAll, describe, expect, test } from 'vitest'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { type ThreePeople, threePeople } from '../../support/people.ts'

const { db } = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
})

describe('an open page', () => {
  test.each(['/', '/?lot=480&limit=5', '/proof', '/proof?lot=480&tested=50&found=0'])(
    '%s is kept and asked about again',
    async (path) => {
      const first = await service.anybody.get(path)
      const mark = first.headers.get('etag') ?? ''
      expect([first.status, first.headers.get('cache-control')]).toEqual([200, 'no-cache'])
      expect(first.headers.get('vary')).toBe('Cookie, Accept-Encoding')
      expect(mark).toMatch(/^W\/"[0-9a-f]{40}"$/)
      const again = await service.app.request(`http://localhost${path}`, {
        headers: { host: 'localhost', 'if-none-match': mark },
      })
      expect([again.status, await again.text()]).toEqual([304, ''])
      expect(again.headers.get('cache-control')).toBe('no-cache')
    },
  )

  test('for somebody signed in is kept by nobody', async () => {
    const answer = await (await service.appAs(three.officer)).get('/proof')
    expect([answer.headers.get('cache-control'), answer.headers.get('etag')]).toEqual(['no-store', null])
  })

  test('has another mark where it says something else', async () => {
    const one = await service.anybody.get('/proof?lot=480&tested=50&found=0')
    const other = await service.anybody.get('/proof?lot=480&tested=50&found=1')
    expect(one.headers.get('etag')).not.toBe(other.headers.get('etag'))
  })
})

test.each(['/sign-in', '/nowhere', '/set-up/none', '/people', '/healthz'])('%s is kept by nobody', async (path) => {
  expect((await service.anybody.get(path)).headers.get('cache-control')).toBe('no-store')
})
