// A person's own password: the signature under a decision.
import { beforeAll, describe, expect, test } from 'vitest'
import { signIn, verifyPassword } from '../../../app/people/sessions/sign-in.ts'
import { firms } from '../../../db/schema/people.ts'
import { type Client, testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { NETWORK, PASSWORD, type ThreePeople, threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
let inspector: Client
beforeAll(async () => {
  await db.insert(firms).values({ name: 'A firm', example: false })
  three = await threePeople(db)
  inspector = await service.appAs(three.inspector)
})

const other = 'quite another one'

describe('one’s own password', () => {
  test('is changed from the page of people too, where a manager resets only those of others', async () => {
    const people = await (await (await service.appAs(three.manager)).get('/people')).text()
    expect(people).toContain(`Reset the password of ${three.officer.name}`)
    expect(people).not.toContain(`Reset the password of ${three.manager.name}`)
    expect(people).toContain('<a href="/people/password">Change your own password</a>')
  })

  test.each([
    ['the present one is wrong', { password: 'a wrong guess', newPassword: other, passwordAgain: other }, 'not right'],
    ['the new one is short', { password: PASSWORD, newPassword: 'short', passwordAgain: 'short' }, 'At least'],
    ['the two differ', { password: PASSWORD, newPassword: other, passwordAgain: 'something else' }, 'differ'],
  ])('stays as it is where %s', async (_, form, sentence) => {
    const answer = await inspector.post('/people/password', form)
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(page).toContain(sentence)
    expect(page).not.toContain(other)
    await verifyPassword(db, three.inspector, PASSWORD)
  })

  test('is changed, signs out everywhere else, and is told without the password', async () => {
    const elsewhere = await service.appAs(three.inspector)
    const answer = await inspector.post('/people/password', {
      password: PASSWORD,
      newPassword: other,
      passwordAgain: other,
    })
    expect(answer.status).toBe(303)
    expect(answer.headers.get('set-cookie')).toMatch(/^cordsift=/)
    expect((await elsewhere.get('/people/password')).status).toBe(303)
    await expect(
      aloud(signIn(db, { name: three.inspector.name, password: PASSWORD, network: NETWORK })),
    ).rejects.toThrow('not right')
    await signIn(db, { name: three.inspector.name, password: other, network: NETWORK })
    const lines = await owner`select person_name, detail from audit where action = 'person.password-changed'`
    expect(lines).toEqual([{ person_name: three.inspector.name, detail: {} }])
  })

  test('is asked of nobody who is not signed in', async () => {
    expect((await service.anybody.get('/people/password')).headers.get('location')).toContain('/sign-in')
  })
})
