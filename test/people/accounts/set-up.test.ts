// The first run: a key that works once, and one first manager however many try.
import { describe, expect, test } from 'vitest'
import { offerSetUp } from '../../../app/people/accounts/set-up.ts'
import { databaseOver } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { plantExample, setUpExample } from '../../../seed/example.ts'
import { examplePassword, firmName, scenarioPeople } from '../../../seed/scenario.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'

const { db, owner } = await freshDatabase()
const other = await freshDatabase()
const third = await freshDatabase()
const service = testApp(db)

const form = {
  name: 'Fay First',
  password: 'five words in one row',
  passwordAgain: 'five words in one row',
  start: 'empty',
  firm: 'A firm',
}

async function key(): Promise<string> {
  const token = await offerSetUp(db)
  if (token === undefined) throw new Error('no key')
  return token
}

describe('the first run', () => {
  test('shows the page for every key that a console printed, as each replica prints its own, and for no other', async () => {
    const keys = [await key(), await key()]
    for (const token of keys) expect((await service.anybody.get(`/set-up/${token}`)).status).toBe(200)
    expect((await service.anybody.get('/set-up/guess')).status).toBe(404)
    const answer = await service.anybody.get(`/new-manager/${keys[0]}`)
    expect(answer.status).toBe(404)
  })

  test('shows no page for a key that is a week old', async () => {
    const token = await key()
    await owner`update one_time_links set expires_at = expires_at - interval '7 days'`
    expect((await service.anybody.get(`/set-up/${token}`)).status).toBe(404)
  })

  test('keeps only a hash of the key', async () => {
    const token = await key()
    const [row] = await owner`select count(*)::int as n from one_time_links where token_hash = ${token}`
    expect(row).toEqual({ n: 0 })
  })

  test.each([
    ['passwordAgain', { passwordAgain: 'another one' }, 'The two passwords differ'],
    ['firm', { firm: ' ' }, 'Type the name of your firm'],
    ['start', { start: 'maybe' }, 'Choose how to start'],
    ['name', { name: '' }, 'Type a name'],
  ])('says beside %s what is wrong, and the key still works', async (field, wrong, sentence) => {
    const token = await key()
    const answer = await service.anybody.post(`/set-up/${token}`, { ...form, ...wrong })
    expect(answer.status).toBe(422)
    expect(await answer.text()).toMatch(new RegExp(`#field-${field}">${sentence}`))
    expect(await db.select().from(people)).toEqual([])
    expect((await service.anybody.get(`/set-up/${token}`)).status).toBe(200)
  })

  test('makes one manager of two who send the form at once, and the key is used up', async () => {
    const token = await key()
    const answers = await Promise.all([
      service.anybody.post(`/set-up/${token}`, form),
      service.anybody.post(`/set-up/${token}`, { ...form, name: 'Sid Second' }),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 404])
    expect(await db.select({ role: people.role }).from(people)).toEqual([{ role: 'manager' }])
    expect(await owner`select name, example from firms`).toEqual([{ name: 'A firm', example: false }])
    const used = await service.anybody.get(`/set-up/${token}`)
    expect([used.status, await used.text()]).toEqual([404, expect.stringContaining('used or is too old: sign in')])
    expect(await offerSetUp(db)).toBeUndefined()
    const cookie =
      answers
        .find(({ status }) => status === 303)
        ?.headers.get('set-cookie')
        ?.split(';')[0] ?? ''
    expect((await service.app.request('/people', { headers: { host: 'localhost', cookie } })).status).toBe(200)
  })

  test('plants the example where it is chosen, which brings its own firm', async () => {
    const service = testApp(other.db, {
      example: {
        setUp: (token, manager) => setUpExample(databaseOver(other.owner), token, manager),
        names: ['Ida Invented'],
      },
    })
    const token = await offerSetUp(other.db)
    const example = { ...form, start: 'example', firm: '' }
    expect((await service.anybody.post(`/set-up/${token}`, { ...example, name: 'Ida Invented' })).status).toBe(422)
    const answer = await service.anybody.post(`/set-up/${token}`, example)
    expect(answer.status).toBe(303)
    expect(await other.owner`select name, example from firms`).toEqual([{ name: firmName, example: true }])
    const signIn = { name: scenarioPeople.inspector, back: '/lots' }
    expect((await service.anybody.post('/sign-in', { ...signIn, password: examplePassword })).status).toBe(422)
    expect((await service.anybody.post('/sign-in', { ...signIn, password: form.password })).status).toBe(303)
    expect(await offerSetUp(other.db)).toBeUndefined()
  })

  test('plants no example where a firm is, and none over the service’s own connection', async () => {
    await expect(plantExample(databaseOver(owner))).rejects.toThrow('an empty database only')
    expect(await owner`select name, example from firms`).toEqual([{ name: 'A firm', example: false }])
    const plant = () =>
      third.owner.begin(async (tx) => {
        await tx`set local session authorization cordsift_service`
        await tx`insert into firms (name, example) values ('Invented', true)`
      })
    await expect(plant()).rejects.toMatchObject({ constraint_name: 'example_by_the_owner' })
  })
})
