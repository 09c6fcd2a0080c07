// The open pages inside the whole service: no account needed, the service's headers kept, the example linked to.
import { describe, expect, test } from 'vitest'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const { inspector } = await threePeople(db)
const service = testApp(db)

describe('the open pages', () => {
  test.each(['/', '/?lot=480&limit=5', '/proof', '/proof?lot=480&tested=48&found=0'])(
    '%s needs no account, and its policy allows nothing unsafe',
    async (path) => {
      const answer = await service.anybody.get(path)
      expect(answer.status).toBe(200)
      const policy = answer.headers.get('content-security-policy') ?? ''
      expect(policy).toContain("default-src 'none'")
      expect(policy).not.toContain('unsafe')
    },
  )

  test('fetch nothing that is not there', async () => {
    const html = await (await service.anybody.get('/')).text()
    const paths = [...html.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map((match) => match[1] ?? '')
    expect(paths).toHaveLength(3)
    for (const path of paths) expect((await service.anybody.get(path)).status, path).toBe(200)
  })

  test('know a reader who is signed in', async () => {
    const client = await service.appAs(inspector)
    expect(textOf(await (await client.get('/proof')).text())).toContain(`${inspector.name}, inspector`)
  })

  test('lead to the example where there is one, and say that it is one', async () => {
    expect(await (await service.anybody.get('/')).text()).not.toContain('See a lot from dock to decision')
    await owner`insert into firms (name, example) values ('Lantern Quay', true)`
    const html = await (await service.anybody.get('/')).text()
    expect(html).toMatch(/<a href="\/sign-in">See a lot from dock to decision<\/a>/)
    expect(textOf(html)).toContain('An example: Lantern Quay')
  })
})
