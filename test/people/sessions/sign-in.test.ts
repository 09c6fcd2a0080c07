// Signing in and out, the lock against guessing, and what a session is worth.
import { eq } from 'drizzle-orm'
import { beforeAll, describe, expect, test } from 'vitest'
import { forgetEndedSessions } from '../../../app/people/sessions/session.ts'
import { signIn, verifyPassword } from '../../../app/people/sessions/sign-in.ts'
import { firms, people, sessions } from '../../../db/schema/people.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { addTo, NETWORK, PASSWORD, type ThreePeople, threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'
import { asService } from '../../support/service-login.ts'

const { db, owner } = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
  await db.insert(firms).values({ name: 'A firm', example: false })
})

describe('signing in', () => {
  test('gives a strict cookie that scripts cannot read, and leads on', async () => {
    const answer = await service.anybody.post('/sign-in', { name: 'oda officer', password: PASSWORD, back: '/lots/3' })
    expect(answer.status).toBe(303)
    expect(answer.headers.get('location')).toBe('/lots/3')
    expect(answer.headers.get('set-cookie')).toMatch(/^cordsift=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/)
    expect(await owner`select person_name, person_role from audit where action = 'person.signed-in'`).toEqual([
      { person_name: 'Oda Officer', person_role: 'officer' },
    ])
  })

  test('keeps only a hash of the token', async () => {
    const token = await signIn(db, { name: 'Oda Officer', password: PASSWORD, network: NETWORK })
    const kept = await db.select().from(sessions)
    expect(JSON.stringify(kept)).not.toContain(token)
  })

  test('over https binds the cookie to this host', async () => {
    const behind = testApp(db, { origin: 'https://cordsift.example' })
    const answer = await behind.anybody.post(
      '/sign-in',
      { name: 'Oda Officer', password: PASSWORD },
      { origin: 'https://cordsift.example' },
    )
    expect(answer.headers.get('set-cookie')).toMatch(
      /^__Host-cordsift=[\w-]{43}; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    )
    expect(answer.headers.get('strict-transport-security')).toBe('max-age=31536000')
  })

  test.each(['https://elsewhere.example/', '//elsewhere.example', '/\\elsewhere.example', 'lots'])(
    'does not lead to %s',
    async (back) => {
      const answer = await service.anybody.post('/sign-in', { name: 'Oda Officer', password: PASSWORD, back })
      expect(answer.headers.get('location')).toBe('/lots')
    },
  )

  test('says the same of a wrong password and of a name that nobody has, and keeps the name', async () => {
    const wrong = await service.anybody.post('/sign-in', { name: 'Ivo Inspector', password: 'not this one' })
    const nobody = await service.anybody.post('/sign-in', { name: 'Ivo Nobody', password: 'not this one' })
    expect([wrong.status, nobody.status]).toEqual([422, 422])
    expect((await nobody.text()).replaceAll('Ivo Nobody', 'Ivo Inspector')).toBe(await wrong.text())
    const page = await (
      await service.anybody.post('/sign-in', { name: 'Ivo Inspector', password: 'not this one' })
    ).text()
    expect(page).toContain('value="Ivo Inspector"')
    expect(page).toContain('The name or the password is not right')
    expect(page).not.toContain('not this one')
  })

  test('is not for a person who was deactivated, whose open sessions end too', async () => {
    const leaver = await addTo(db, 'Lea Leaver', 'inspector')
    const client = await service.appAs(leaver)
    await db.update(people).set({ active: false }).where(eq(people.id, leaver.id))
    await expect(aloud(signIn(db, { name: leaver.name, password: PASSWORD, network: NETWORK }))).rejects.toThrow(
      'name or the password',
    )
    expect((await client.get('/people')).headers.get('location')).toMatch(/^\/sign-in/)
  })
})

describe('a session', () => {
  test('ends by signing out, for whoever holds its token', async () => {
    const client = await service.appAs(three.manager)
    expect((await client.get('/people')).status).toBe(200)
    expect((await client.post('/sign-out', {})).headers.get('set-cookie')).toContain('Max-Age=0')
    expect((await client.get('/people')).status).toBe(303)
  })

  test.each([
    ['a night without a request', "last_seen_at = now() - interval '13 hours'"],
    ['a week', "expires_at = now() - interval '1 second'"],
  ])('ends after %s', async (_, past) => {
    const client = await service.appAs(three.manager)
    await owner.unsafe(`update sessions set ${past}`)
    expect((await client.get('/people')).status).toBe(303)
    await owner`update sessions set last_seen_at = now(), expires_at = now() + interval '1 day'` // as if the clock stepped back
    expect((await client.get('/people')).status).toBe(303)
  })

  test('that has ended and is never asked for is removed by a job, and no other', async () => {
    await service.appAs(three.manager)
    await owner`update sessions set last_seen_at = now() - interval '13 hours'`
    const client = await service.appAs(three.manager)
    expect(await db.transaction(forgetEndedSessions)).toBe(false)
    expect(await owner`select from sessions`).toHaveLength(1)
    expect((await client.get('/people')).status).toBe(200)
  })

  test('is not seen earlier than it was where the clock stands behind', async () => {
    const client = await service.appAs(three.manager)
    await owner`update sessions set last_seen_at = now() + interval '2 hours'`
    const seen = await owner`select last_seen_at::text as at from sessions order by at`
    await asService(owner, (sql) => sql`update sessions set last_seen_at = now()`)
    expect(await owner`select last_seen_at::text as at from sessions order by at`).toEqual(seen)
    expect((await client.get('/people')).status).toBe(200)
  })

  test('is asked for with the way back', async () => {
    const answer = await service.anybody.get('/people?x=1')
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/sign-in?back=%2Fpeople%3Fx%3D1'])
  })
})

describe('a signature', () => {
  test('takes the signer’s own password and no other', async () => {
    await expect(verifyPassword(db, three.manager, PASSWORD)).resolves.toBeUndefined()
    await expect(verifyPassword(db, three.manager, 'another one')).rejects.toMatchObject({
      kind: 'invalid',
      field: 'password',
    })
  })

  test('is lost with damage to the hash, loudly', async () => {
    const broken = await addTo(db, 'Bo Broken', 'manager')
    await owner`update people set password_hash = 'rubbish' where id = ${broken.id}`
    await expect(verifyPassword(db, broken, PASSWORD)).rejects.not.toMatchObject({ name: 'Refusal' })
  })
})
