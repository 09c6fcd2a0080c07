// A managed PostgreSQL: start, migrate, one job; an owner who may make no roles; an address that is wrong.
import postgres from 'postgres'
import { beforeAll, describe, expect, test } from 'vitest'
import { migrateDatabase } from '../../db/migrate.ts'
import { managedServer } from '../support/managed.ts'
import { compiled, start } from '../support/service.ts'

const { version, database, administrator } = await managedServer()
let main = ''
beforeAll(() => {
  main = compiled()
})

describe(`Debian’s PostgreSQL ${version}`, () => {
  test('takes the migrations, and the service does a whole job on it as its own role', async () => {
    const url = await database('firm', true)
    const service = await start(main, { env: { DATABASE_URL: url } })
    const link = /http\S+\/set-up\/\S+/.exec(service.said())?.[0] ?? ''
    const password = 'a long enough password'
    const form = { name: 'Fay First', password, passwordAgain: password, start: 'example' }
    const headers = { origin: service.address }
    const answer = await fetch(link, { method: 'POST', headers, body: new URLSearchParams(form), redirect: 'manual' })
    expect(answer.status).toBe(303)
    const sql = postgres(url, { max: 1 })
    const states = await sql<{ state: string }[]>`select distinct state::text from lots`
    expect(states.map(({ state }) => state)).toEqual(
      expect.arrayContaining(['announced', 'drawn', 'accepted', 'returned']),
    )
    const users = await sql<
      { name: string }[]
    >`select distinct usename as name from pg_stat_activity where application_name = 'cordsift'`
    expect(users).toEqual([{ name: 'firm' }])
    await expect(sql.begin((tx) => [tx`set local role cordsift_service`, tx`delete from audit`])).rejects.toMatchObject(
      { code: '42501' },
    )
    await sql.end()
    expect(await service.kill('SIGTERM')).toBe(0)
    const again = await start(main, { env: { DATABASE_URL: url } })
    expect(again.said()).not.toContain('/set-up/')
    expect(await again.kill('SIGTERM')).toBe(0)
  })

  test('with an owner who may make no roles says what an administrator is to run, and works after that', async () => {
    await administrator.unsafe('drop database if exists firm with (force)')
    await administrator.unsafe('drop role if exists cordsift_service')
    const url = await database('guest', false)
    await expect(migrateDatabase(url)).rejects.toThrow('create role cordsift_service nologin')
    await administrator.unsafe('create role cordsift_service nologin')
    await administrator.unsafe('grant cordsift_service to guest')
    await migrateDatabase(url)
    await migrateDatabase(url)
  })

  test('that is not there, or takes no such password, is said in one sentence', async () => {
    const url = await database('late', true)
    for (const wrong of [url.replace('of%20late', 'guess'), url.replace(/:\d+\//, ':1/')]) {
      const service = await start(main, { env: { DATABASE_URL: wrong } })
      expect(await service.ended).toBe(2)
      expect(service.said()).toMatch(/password authentication failed|ECONNREFUSED/)
      expect(service.said()).not.toContain('    at ')
    }
  })
})
