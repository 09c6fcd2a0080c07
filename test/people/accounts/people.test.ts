// The people of a firm: added, given roles and deactivated by a manager, told to the audit, never without a manager.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { addPerson } from '../../../app/people/accounts/add.ts'
import { deactivate } from '../../../app/people/accounts/deactivate.ts'
import { peopleOf } from '../../../app/people/accounts/list.ts'
import { setRole } from '../../../app/people/accounts/set-role.ts'
import { signIn } from '../../../app/people/sessions/sign-in.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { addTo, NETWORK, type ThreePeople, threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
})

const newcomer = () => ({
  key: randomUUID(),
  name: `New ${randomUUID().slice(0, 8)}`,
  role: 'inspector' as const,
  password: 'four words are long',
})

async function named(name: string) {
  return (await peopleOf(db)).find((person) => person.name === name)
}

describe('only a manager', () => {
  test.each(['officer', 'inspector'] as const)(
    'and no %s adds, sets a role, deactivates or sees the page',
    async (role) => {
      const person = three[role]
      const before = await peopleOf(db)
      await expect(addPerson(db, person, newcomer())).rejects.toMatchObject({ kind: 'forbidden' })
      await expect(setRole(db, person, person.id, { seen: role, role: 'manager' })).rejects.toMatchObject({
        kind: 'forbidden',
      })
      await expect(deactivate(db, person, three.manager.id)).rejects.toMatchObject({ kind: 'forbidden' })
      expect((await (await service.appAs(person)).get('/people')).status).toBe(403)
      expect(await peopleOf(db)).toEqual(before)
    },
  )
})

describe('a manager', () => {
  test('adds a person by the page, who can sign in then; the audit tells it without the password', async () => {
    const form = newcomer()
    const answer = await (await service.appAs(three.manager)).post('/people', form)
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/people'])
    await expect(signIn(db, { ...form, network: NETWORK })).resolves.toMatch(/^[\w-]{43}$/)
    const lines =
      await owner`select person_name, detail from audit where action = 'person.added' and detail ->> 'name' = ${form.name}`
    expect(lines).toEqual([{ person_name: 'Mara Manager', detail: { name: form.name, role: 'inspector' } }])
  })

  test('sends the same form twice and adds one', async () => {
    const form = newcomer()
    await Promise.all([addPerson(db, three.manager, form), addPerson(db, three.manager, form)])
    expect(await owner`select count(*)::int as n from audit where detail ->> 'name' = ${form.name}`).toEqual([{ n: 1 }])
  })

  test.each([
    ['name', { name: '' }, 'Type a name'],
    ['name', { name: 'x'.repeat(81) }, 'At most 80 characters'],
    ['name', { name: 'a\u0000b' }, 'cannot be kept'],
    ['name', { name: 'IVO inspector' }, 'There is a person named IVO inspector already'],
    ['role', { role: 'king' }, 'Choose a role'],
    ['password', { password: 'short' }, 'At least 12 characters'],
    ['key', { key: 'none' }, 'load the page again'],
  ])('is told beside %s what is wrong, and nothing is changed', async (field, wrong, sentence) => {
    const before = await peopleOf(db)
    const answer = await (await service.appAs(three.manager)).post('/people', { ...newcomer(), ...wrong })
    const page = await answer.text()
    expect(answer.status).toBe(422)
    expect(page).toContain(sentence)
    expect(page).toContain(`#field-${field}`)
    expect(await peopleOf(db)).toEqual(before)
  })

  test('sets a role, which holds for a session that is open', async () => {
    const person = await addTo(db, 'Rita Riser', 'inspector')
    const client = await service.appAs(person)
    const manager = await service.appAs(three.manager)
    expect((await manager.post(`/people/${person.id}/role`, { seen: 'inspector', role: 'manager' })).status).toBe(303)
    expect((await client.get('/people')).status).toBe(200)
    const again = await manager.post(`/people/${person.id}/role`, { seen: 'inspector', role: 'officer' })
    expect(again.status).toBe(409)
    expect(await named('Rita Riser')).toMatchObject({ role: 'manager' })
    await setRole(db, three.manager, person.id, { seen: 'manager', role: 'officer' })
  })

  test('is never the last to go', async () => {
    const alone = { ...three.manager }
    await expect(aloud(deactivate(db, alone, alone.id))).rejects.toThrow('This is the last manager')
    await expect(aloud(setRole(db, alone, alone.id, { seen: 'manager', role: 'officer' }))).rejects.toThrow(
      'This is the last manager',
    )
  })

  test('of two who remove each other at the same moment, one stays', async () => {
    const other = await addTo(db, 'Otto Other', 'manager')
    const ends = await Promise.allSettled([
      deactivate(db, other, three.manager.id),
      deactivate(db, three.manager, other.id),
    ])
    expect(ends.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    const managers = (await peopleOf(db)).filter(({ role, active }) => role === 'manager' && active)
    expect(managers).toHaveLength(1)
    await owner`update people set active = true where id = ${three.manager.id}`
  })

  test.each(['0', '999999', '2147483648', 'x', '1.5'])('finds nobody at /people/%s', async (id) => {
    const manager = await service.appAs(three.manager)
    expect((await manager.post(`/people/${id}/deactivation`, {})).status).toBe(404)
  })
})

describe('the audit’s page', () => {
  test('shows everybody who is signed in what was done to whom, and narrows to one subject', async () => {
    const client = await service.appAs(three.inspector)
    const [gone] = await owner<{ subject: string }[]>`select subject from audit where action = 'person.deactivated'`
    const page = await (await client.get(`/audit?about=${gone?.subject}`)).text()
    expect(page).toContain('deactivated the account:')
    expect(page).not.toContain('added the account:')
    expect((await service.anybody.get('/audit')).status).toBe(303)
  })

  test('leads to older lines, each line once', async () => {
    await owner`insert into audit (person_name, action, subject, detail) select 'The service', 'lot.received', 'lot/7', jsonb_build_object('n', n) from generate_series(1, 230) n`
    const client = await service.appAs(three.inspector)
    const seen: string[] = []
    for (let path: string | undefined = '/audit?about=lot/7'; path !== undefined; ) {
      const page: string = await (await client.get(path)).text()
      seen.push(...[...page.matchAll(/id="line-(\d+)"/g)].map((match) => match[1] ?? ''))
      path = /href="(\/audit\?[^"]+)">Older entries/.exec(page)?.[1]?.replaceAll('&amp;', '&')
    }
    expect(new Set(seen).size).toBe(230)
    expect(seen).toHaveLength(230)
    expect((await client.get('/audit?before=soon')).status).toBe(422)
  })
})
