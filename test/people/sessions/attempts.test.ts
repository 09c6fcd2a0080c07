// Guessing is slowed by network and name, and never keeps anybody out who is elsewhere or signed in.
import { setTimeout as sleep } from 'node:timers/promises'
import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { Wait } from '../../../app/kit/refusal.ts'
import { forgetOldAttempts } from '../../../app/people/forget.ts'
import { hashPassword, signedIn, stranger } from '../../../app/people/passwords/password.ts'
import { FREE_ATTEMPTS, signInCounter } from '../../../app/people/sessions/attempts.ts'
import { signIn, verifyPassword } from '../../../app/people/sessions/sign-in.ts'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { addTo, PASSWORD, type ThreePeople, threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const service = testApp(db)
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
})
beforeEach(async () => {
  await owner`delete from password_attempts`
})

const [here, elsewhere] = ['198.51.100.7', '203.0.113.9']
const guess = (name: string, network = here) => signIn(db, { name, password: 'a wrong guess', network })
const right = (name: string, network = here) => signIn(db, { name, password: PASSWORD, network })

async function guessOften(name: string, times: number, network = here) {
  for (let n = 0; n < times; n++) await guess(name, network).catch(() => undefined)
}

/** The seconds of the wait that stands now. */
async function wait(): Promise<number[]> {
  const rows = await owner<{ seconds: number }[]>`
    select round(extract(epoch from next_at - last_at))::int as seconds from password_attempts`
  return rows.map(({ seconds }) => seconds)
}

describe('wrong passwords for one name', () => {
  test('from one network never keep its owner out elsewhere, nor a live session from signing', async () => {
    const manager = await service.appAs(three.manager)
    const stranger = service.from(here)
    for (let n = 0; n < 12; n++) await stranger.post('/sign-in', { name: 'Mara Manager', password: 'a wrong guess' })
    const form = { name: 'Mara Manager', password: PASSWORD }
    const answer = await stranger.post('/sign-in', form)
    expect(answer.status).toBe(429)
    expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0)
    expect(await answer.text()).toMatch(/Too many wrong passwords: try again in \d+ seconds/)
    expect((await service.from(elsewhere).post('/sign-in', form)).status).toBe(303)
    await expect(verifyPassword(db, three.manager, PASSWORD)).resolves.toBeUndefined()
    expect((await manager.get('/people')).status).toBe(200)
  })

  test('wait longer each time: nothing, then 10 seconds, twice as long each, a quarter of an hour at most', async () => {
    const waits: number[] = []
    for (let n = 1; n <= 14; n++) {
      await guess('Mara Manager').catch(() => undefined)
      waits.push(...(await wait()))
      await owner`update password_attempts set next_at = now()`
    }
    expect(waits).toEqual([0, 0, 0, 0, 10, 20, 40, 80, 160, 320, 640, 900, 900, 900])
  })

  test('are not looked at before the time, and do not make the wait longer', async () => {
    await guessOften('Mara Manager', FREE_ATTEMPTS + 1)
    const before = await owner`select failures, next_at from password_attempts`
    await expect(right('Mara Manager')).rejects.toMatchObject({ kind: 'wait', seconds: 10 })
    expect(await owner`select failures, next_at from password_attempts`).toEqual(before)
  })

  test('are none where a crowd fills the gate: what was not looked at does not count', async () => {
    let going = true
    const crowd = Array.from({ length: 40 }, async (_, n) => {
      const asker = n % 2 === 0 ? stranger(`crowd ${n % 4}`) : signedIn(9000 + n)
      while (going) await hashPassword('any', asker).catch(() => sleep(1))
    })
    const attempts = [() => right('Mara Manager'), () => verifyPassword(db, three.manager, PASSWORD)]
    for (const attempt of attempts) {
      let end: unknown
      while (!(end instanceof Wait)) end = await attempt().catch((error: unknown) => error)
      expect(sentenceOf(end)).toContain('Too much at once')
    }
    going = false
    await Promise.all(crowd)
    expect(await owner`select failures, next_at <= clock_timestamp() as open from password_attempts`).toEqual([
      { failures: 0, open: true },
      { failures: 0, open: true },
    ])
  })

  test('count also when they come all at once', async () => {
    const ends = await Promise.allSettled(Array.from({ length: 10 }, () => guess('Mara Manager')))
    const kinds = ends.map((end) => (end.status === 'rejected' ? end.reason.kind : 'in'))
    expect(kinds.filter((kind) => kind === 'wait')).toHaveLength(10 - FREE_ATTEMPTS - 1)
  })

  test('are one count however the name is written', async () => {
    for (const name of ['Mara Manager', 'MARA MANAGER', ' mara  manager', 'Ｍara Manager'])
      await guess(name).catch(() => 0)
    expect(await owner`select failures from password_attempts`).toEqual([{ failures: 4 }])
  })

  test('are forgotten after the right one, and after a day', async () => {
    await guessOften('Mara Manager', 3)
    await right('Mara Manager')
    expect(await owner`select from password_attempts`).toHaveLength(0)
    await guessOften('Mara Manager', 5)
    await owner`update password_attempts set last_at = now() - interval '25 hours', next_at = now() - interval '25 hours'`
    await guess('Mara Manager').catch(() => undefined)
    expect(await owner`select failures from password_attempts`).toEqual([{ failures: 1 }])
  })

  test('keep nobody out where the clock was set back', async () => {
    await guessOften('Mara Manager', 6)
    await owner`update password_attempts set next_at = now() + interval '30 days'`
    await expect(right('Mara Manager')).resolves.toHaveLength(43)
  })

  test('wait in the same way for a name that nobody has', async () => {
    await guessOften('Nobody Atall', FREE_ATTEMPTS + 1)
    const waiting = await guess('Nobody Atall').catch((error: Error) => error)
    await guessOften('Mara Manager', FREE_ATTEMPTS + 1)
    const known = await guess('Mara Manager').catch((error: Error) => error)
    expect(waiting).toEqual(known)
  })
})

describe('a signature’s wrong passwords', () => {
  test('are the signer’s own: they wait, and signing in does not', async () => {
    const signer = await addTo(db, 'Sia Signer', 'manager')
    for (let n = 0; n <= FREE_ATTEMPTS; n++)
      await expect(aloud(verifyPassword(db, signer, 'a wrong guess'))).rejects.toThrow('not right')
    await expect(verifyPassword(db, signer, PASSWORD)).rejects.toMatchObject({ kind: 'wait', field: 'password' })
    await expect(right('Sia Signer')).resolves.toHaveLength(43)
    await expect(verifyPassword(db, three.manager, PASSWORD)).resolves.toBeUndefined()
  })
})

describe('what is kept', () => {
  test('holds neither the name that was typed nor more than 1,024 rows of a network', async () => {
    await guessOften('typed-my-password-here', 1)
    expect(JSON.stringify(await owner`select * from password_attempts`)).not.toContain('typed')
    const counters = new Set(Array.from({ length: 20_000 }, (_, n) => signInCounter(here, `name ${n}`)))
    expect(counters.size).toBe(1024)
  })

  test('is forgotten by the job after a day', async () => {
    await guessOften('Mara Manager', 1)
    await guessOften('Oda Officer', 1)
    await owner`update password_attempts set last_at = now() - interval '25 hours' where counter = (select min(counter) from password_attempts)`
    expect(await db.transaction(forgetOldAttempts)).toBe(false)
    expect(await owner`select from password_attempts`).toHaveLength(1)
  })

  test('tells the audit how often, in few lines, and from where', async () => {
    await owner`delete from event_counts`
    const [last] = await owner<{ id: number }[]>`select max(id)::int as id from audit`
    await guessOften('Ivo Inspector', FREE_ATTEMPTS + 25)
    await guessOften('Nobody Atall', FREE_ATTEMPTS + 25)
    const lines = await owner`
      select person_id, subject, detail from audit where id > ${last?.id ?? 0} order by id`
    const told = (times: number) => ({ network: here, timesThisHour: times })
    const of = (subject: string) => [1, 10].map((n) => ({ person_id: null, subject, detail: told(n) }))
    expect(lines).toEqual([...of(`people/${three.inspector.id}`), ...of('people')])
  })
})
