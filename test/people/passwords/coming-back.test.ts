// Coming back: a reset by a manager, an account given back, a link made on the machine, and a first password that must be changed.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { addPerson } from '../../../app/people/accounts/add.ts'
import { deactivate } from '../../../app/people/accounts/deactivate.ts'
import { reactivate } from '../../../app/people/accounts/reactivate.ts'
import { recover } from '../../../app/people/passwords/recover.ts'
import { resetPassword } from '../../../app/people/passwords/reset.ts'
import { signIn } from '../../../app/people/sessions/sign-in.ts'
import { registerSupplier } from '../../../app/register/register-supplier.ts'
import { type Client, testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { addTo, NETWORK, PASSWORD, type ThreePeople, threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const empty = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
let manager: Client
beforeAll(async () => {
  three = await threePeople(db)
  manager = await service.appAs(three.manager)
})

const CHOSEN = 'chosen by oneself'
const both = { password: CHOSEN, passwordAgain: CHOSEN }
const enter = (name: string, password: string) => signIn(db, { name, password, network: NETWORK })

async function told(id: number): Promise<unknown[]> {
  const lines = await owner<{ line: string }[]>`
    select action || ' by ' || person_name as line from audit where subject = ${`people/${id}`} and action <> 'person.signed-in' order by id`
  return lines.map(({ line }) => line)
}

describe('a forgotten password', () => {
  test('is reset by a manager: a link shown once, the old password and every session gone, the new one one’s own', async () => {
    const person = await addTo(db, 'Fia Forgetful', 'inspector')
    const session = await service.appAs(person)
    const page = await (await manager.post(`/people/${person.id}/password-reset`, {})).text()
    const path = /http:\/\/localhost(\/new-password\/[\w-]{32})/.exec(page)?.[1] ?? ''
    expect(page).toContain('for 24 hours')
    expect((await session.get('/lots')).headers.get('location')).toContain('/sign-in')
    await expect(aloud(enter(person.name, PASSWORD))).rejects.toThrow('not right')

    expect(await (await service.anybody.get(path)).text()).toContain('A new password for Fia Forgetful')
    const answer = await service.anybody.post(path, both)
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/lots'])
    expect(answer.headers.get('set-cookie')).toMatch(/^cordsift=/)
    await expect(enter(person.name, CHOSEN)).resolves.toHaveLength(43)
    expect((await service.anybody.get(path)).status).toBe(404)
    expect(await told(person.id)).toEqual([
      'person.password-reset by Mara Manager',
      'person.password-chosen by Fia Forgetful',
    ])
    expect(JSON.stringify(await owner`select * from one_time_links`)).not.toContain(path.split('/')[2])
  })

  test.each([
    ['that is easily guessed', { password: 'qwerty123456', passwordAgain: 'qwerty123456' }, 'most common'],
    ['that holds the name', { password: 'hello carla hello', passwordAgain: 'hello carla hello' }, 'of the name'],
    ['typed in two ways', { password: CHOSEN, passwordAgain: 'something else' }, 'differ'],
  ])('does not become one %s, and the link still works', async (_, form, sentence) => {
    const person = await addTo(db, `Carla ${randomUUID()}`, 'inspector')
    const { token } = await resetPassword(db, three.manager, person.id)
    const answer = await service.anybody.post(`/new-password/${token}`, form)
    expect([answer.status, (await answer.text()).includes(sentence)]).toEqual([422, true])
    expect((await service.anybody.get(`/new-password/${token}`)).status).toBe(200)
  })

  test.each([
    ['replaced by a later one', (id: number) => resetPassword(db, three.manager, id)],
    [
      'a day old',
      (id: number) => owner`update one_time_links set expires_at = now() - interval '1 second' where person_id = ${id}`,
    ],
    ['of somebody who was deactivated', (id: number) => deactivate(db, three.manager, id)],
  ])('is not chosen by a link %s', async (_, spoil) => {
    const person = await addTo(db, `Lars ${randomUUID()}`, 'inspector')
    const { token } = await resetPassword(db, three.manager, person.id)
    await spoil(person.id)
    expect((await service.anybody.post(`/new-password/${token}`, both)).status).toBe(404)
    await expect(aloud(enter(person.name, CHOSEN))).rejects.toThrow('not right')
  })

  test('is not chosen by a link from before the account was given back', async () => {
    const person = await addTo(db, 'Liv Late', 'inspector')
    const { token } = await resetPassword(db, three.manager, person.id)
    await deactivate(db, three.manager, person.id)
    await reactivate(db, three.manager, person.id)
    expect((await service.anybody.post(`/new-password/${token}`, both)).status).toBe(404)
  })

  test('is chosen once by two who open the link at once', async () => {
    const person = await addTo(db, 'Tove Twice', 'inspector')
    const { token } = await resetPassword(db, three.manager, person.id)
    const answers = await Promise.all([1, 2].map(() => service.anybody.post(`/new-password/${token}`, both)))
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 404])
  })

  test('lets nobody in whose password was looked at before it was taken away', async () => {
    const person = await addTo(db, 'Siri Slow', 'inspector')
    const { ended } = await owner.begin(async (tx) => {
      await tx`update people set password_hash = null where id = ${person.id}`
      let over = false
      const ended = aloud(enter(person.name, PASSWORD)).then(
        () => 'in',
        (error: Error) => error.message,
      )
      void ended.then(() => (over = true))
      const waiting = () =>
        tx`select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`
      while (!over && (await waiting()).length === 0);
      return { ended }
    })
    expect(await ended).toContain('not right')
    expect(await owner`select from sessions where person_id = ${person.id}`).toHaveLength(0)
  })

  test.each([
    ['by an officer', () => three.officer, () => three.inspector.id, 'forbidden'],
    ['by an inspector', () => three.inspector, () => three.officer.id, 'forbidden'],
    ['of oneself', () => three.manager, () => three.manager.id, 'conflict'],
    ['of nobody', () => three.manager, () => 9999, 'missing'],
  ])('is not reset %s', async (_, who, whose, kind) => {
    await expect(resetPassword(db, who(), whose())).rejects.toMatchObject({ kind })
  })
})

describe('an account', () => {
  test('is given back by a manager with its role and password, and the audit tells it', async () => {
    const person = await addTo(db, 'Rune Returner', 'officer')
    await deactivate(db, three.manager, person.id)
    expect(await (await manager.get('/people')).text()).toContain('Reactivate Rune Returner')
    expect((await manager.post(`/people/${person.id}/reactivation`, {})).status).toBe(303)
    await expect(enter(person.name, PASSWORD)).resolves.toHaveLength(43)
    expect(await told(person.id)).toEqual(['person.deactivated by Mara Manager', 'person.reactivated by Mara Manager'])
    await expect(reactivate(db, three.manager, person.id)).rejects.toMatchObject({ kind: 'conflict' })
    await expect(reactivate(db, three.officer, person.id)).rejects.toMatchObject({ kind: 'forbidden' })
  })
})

describe('a first password, which a manager typed,', () => {
  test('opens nothing but the page where another is chosen, and no verb runs', async () => {
    const name = 'Nina Newcomer'
    await addPerson(db, three.manager, { key: randomUUID(), name, role: 'officer', password: PASSWORD })
    const [row] = await owner<{ id: number }[]>`select id from people where name = ${name}`
    const newcomer = { id: row?.id ?? 0, name, role: 'officer', separateDuties: true } as const
    const client = await service.appAs(newcomer)
    for (const path of ['/lots', '/audit', '/suppliers', '/items', '/people', '/percentage'])
      expect((await client.get(path)).headers.get('location')).toBe('/people/password')
    const sent = await client.post('/suppliers', { key: randomUUID(), name: 'Some maker' })
    expect([sent.status, sent.headers.get('location')]).toEqual([303, '/people/password'])
    await expect(aloud(registerSupplier(db, newcomer, { key: randomUUID(), name: 'Some maker' }))).rejects.toThrow(
      'Choose a password of your own first',
    )
    expect(await owner`select from suppliers`).toHaveLength(0)
    expect(await (await client.get('/people/password')).text()).toContain('Choose a password of your own first')

    const form = { password: PASSWORD, newPassword: PASSWORD, passwordAgain: PASSWORD }
    expect(await (await client.post('/people/password', form)).text()).toContain('This is the present one')
    const changed = await client.post('/people/password', { ...form, newPassword: CHOSEN, passwordAgain: CHOSEN })
    expect(changed.status).toBe(303)
    await registerSupplier(db, newcomer, { key: randomUUID(), name: 'Some maker' })
    expect((await (await service.appAs(newcomer)).get('/lots')).status).toBe(200)
  })
})

describe('the console', () => {
  test('names the managers where there are several, and makes a link for the one that is named', async () => {
    const other = await addTo(db, 'Odd Manager', 'manager')
    expect(await recover(db, undefined)).toEqual({ kind: 'choose', managers: ['Mara Manager', 'Odd Manager'] })
    expect(await recover(db, 'Nobody')).toMatchObject({ kind: 'choose' })
    expect(await recover(db, three.officer.name)).toMatchObject({ kind: 'choose' })
    const made = await recover(db, 'odd  manager')
    if (made.kind !== 'link') throw new Error(made.kind)
    expect(made).toMatchObject({ forWhom: 'Odd Manager', hours: 1 })
    await expect(enter(other.name, PASSWORD)).resolves.toHaveLength(43) // until the link is used nothing changes
    expect((await service.anybody.post(made.path, both)).status).toBe(303)
    await expect(enter(other.name, CHOSEN)).resolves.toHaveLength(43)
    expect(await told(other.id)).toEqual([
      'person.recovery-offered by The console',
      'person.password-chosen by Odd Manager',
    ])
    await owner`update people set active = false where id = ${other.id}`
  })

  test('takes the only manager without being told the name', async () => {
    expect(await recover(db, undefined)).toMatchObject({ kind: 'link', forWhom: 'Mara Manager' })
  })

  test('makes a link for a new manager where none is active, which works for one, once', async () => {
    await owner`update people set active = false where role = 'manager'`
    const made = await recover(db, 'Mara Manager')
    if (made.kind !== 'link') throw new Error(made.kind)
    expect(made.forWhom).toBeUndefined()
    expect((await service.anybody.get(made.path)).status).toBe(200)
    const form = { name: 'Nils Newmanager', ...both }
    expect((await service.anybody.post(made.path, { ...form, name: 'Маra' })).status).toBe(422)
    const answers = await Promise.all(
      [1, 2].map((n) => service.anybody.post(made.path, { ...form, name: `Nils ${n}` })),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 404])
    expect(await owner`select from people where role = 'manager' and active`).toHaveLength(1)
    expect((await service.anybody.post(made.path, form)).status).toBe(404)
    await owner`update people set active = true where id = ${three.manager.id}`
  })

  test('leaves an empty database to its set-up link', async () => {
    expect(await recover(empty.db, undefined)).toEqual({ kind: 'empty' })
  })
})

describe('sessions', () => {
  test('elsewhere are counted on one’s own page and ended from there, this one goes on', async () => {
    const person = await addTo(db, 'Sven Sessions', 'inspector')
    const [here, there, third] = [await service.appAs(person), await service.appAs(person), await service.appAs(person)]
    expect(await (await here.get('/people/password')).text()).toContain('in 2 other browsers')
    expect((await here.post('/people/password/elsewhere', {})).status).toBe(303)
    expect(await Promise.all([there, third].map(async (client) => (await client.get('/lots')).status))).toEqual([
      303, 303,
    ])
    expect(await (await here.get('/people/password')).text()).toContain('Only here')
    await here.post('/sign-out', {})
    expect(await told(person.id)).toEqual([
      'person.signed-out-elsewhere by Sven Sessions',
      'person.signed-out by Sven Sessions',
    ])
  })
})

describe('what was refused', () => {
  test('is told to the audit with who tried, in few lines however often', async () => {
    const person = await addTo(db, 'Tor Trier', 'inspector')
    const client = await service.appAs(person)
    for (let n = 0; n < 12; n++) expect((await client.get('/people')).status).toBe(403)
    const lines =
      await owner`select detail from audit where action = 'person.refused' and person_id = ${person.id} order by id`
    const said = 'Only a manager may see the people; Tor Trier is signed in as warehouse inspector'
    expect(lines).toEqual([1, 10].map((timesThisHour) => ({ detail: { said, timesThisHour } })))
  })

  test('is told of forms from elsewhere too', async () => {
    const headers = { origin: 'https://elsewhere.example' }
    for (let n = 0; n < 3; n++)
      await service.from('198.51.100.7').post('/sign-in', { name: 'x', password: 'x' }, headers)
    const lines = await owner`select person_id, detail from audit where action = 'form.refused'`
    expect(lines).toEqual([{ person_id: null, detail: { network: '198.51.100.7', timesThisHour: 1 } }])
  })
})
