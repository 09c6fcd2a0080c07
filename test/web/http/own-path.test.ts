// Where a sign-in may lead back to.
import { expect, test } from 'vitest'
import { ownPath } from '../../../app/web/http/own-path.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { PASSWORD, threePeople } from '../../support/people.ts'

const { db } = await freshDatabase()
const service = testApp(db)

test.each([
  ['a path of ours', '/lots/17?x=1', '/lots/17?x=1'],
  ['one that is encoded already', '/lots?name=%C3%A9', '/lots?name=%C3%A9'],
  ['letters that no header carries', '/lots?name=é', '/lots?name=%C3%A9'],
  ['nothing', undefined, '/lots'],
  ['another site', 'https://evil.example/', '/lots'],
  ['another site without a scheme', '//evil.example/', '/lots'],
  ['another site with a backslash', '/\\evil.example/', '/lots'],
  ['a zero', '/\u0000', '/'],
  ['a control character', '/\u0001', '/'],
  ['a delete', '/lots\u007f', '/'],
  ['a line end', '/lots\r\nSet-Cookie: a=b', '/'],
  ['a turned direction', '/lots\u202e', '/'],
  ['half of a pair', '/lots\ud800', '/'],
])('%s', (_name, back, path) => {
  expect(ownPath(back)).toBe(path)
})

test.each(['/%01', '/%1b', '/%7f', '/%00', '/%c3%a9'])(
  'a sign-in that asks to go back to %s is answered with a whole page',
  async (encoded) => {
    await threePeople(db).catch(() => undefined)
    const back = decodeURIComponent(encoded)
    const answer = await service.anybody.post('/sign-in', { name: 'Mara Manager', password: PASSWORD, back })
    expect([answer.status, answer.headers.get('location')]).toEqual([303, back === '/é' ? '/%C3%A9' : '/'])
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'")
  },
)
