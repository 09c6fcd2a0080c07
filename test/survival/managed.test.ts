// A managed PostgreSQL: start, migrate, one job; an owner who may make no roles; an address that is wrong.
import postgres from 'postgres'
import { beforeAll, describe, expect, test } from 'vitest'
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
    const login = await loginOf('firm')
    const users = await sql<
      { name: string }[]
    >`select distinct usename as name from pg_stat_activity where application_name = 'cordsift'`
    expect(users).toEqual([{ name: login }])
    const [role] = await administrator`
      select rolsuper, rolcreaterole, pg_has_role(${login}, 'firm', 'member') as owner, rolconfig from pg_roles where rolname = ${login}`
    expect(role).toMatchObject({ rolsuper: false, rolcreaterole: false, owner: false })
    expect(role?.rolconfig).toContain('statement_timeout=20000')
    await sql.end()
    expect(await service.kill('SIGTERM')).toBe(0)
    const again = await start(main, { env: { DATABASE_URL: url } })
    expect(again.said()).not.toContain('/set-up/')
    expect(await again.kill('SIGTERM')).toBe(0)
  })

  test('with an owner who may make no roles says the two statements, touches nothing, and works once they were run', async () => {
    await administrator.unsafe('drop database if exists firm with (force)')
    for (const { name } of await administrator<{ name: string }[]>`
      select rolname as name from pg_roles where rolname like 'cordsift%' order by length(rolname) desc`)
      await administrator.unsafe(`drop role ${name}`)
    const owner = await database('guest', false)
    const refused = await start(main, { env: { DATABASE_URL: owner } })
    expect(await refused.ended).toBe(2)
    const statements = refused.said().match(/^ {2}create role .*;$/gm) ?? []
    expect(statements).toHaveLength(2)
    const sql = postgres(owner, { max: 1 })
    expect(await sql`select nspname from pg_namespace where nspname = 'drizzle'`).toEqual([])
    await sql.end()

    for (const statement of statements) await administrator.unsafe(statement.replace('…', 'of the service'))
    const login = await loginOf('guest')
    const url = owner.replace('guest:of%20guest', `${login}:of%20the%20service`)
    const service = await start(main, { env: { DATABASE_URL: url, DATABASE_OWNER_URL: owner } })
    expect(await (await fetch(`${service.address}/readyz`)).text()).toBe('ready\n')
    const [carried] = await administrator`select rolconfig from pg_roles where rolname = ${login}`
    expect(carried?.rolconfig).toEqual([
      'statement_timeout=20000',
      'lock_timeout=10000',
      'idle_in_transaction_session_timeout=30000',
    ])
    expect(await service.kill('SIGTERM')).toBe(0)
    const swapped = await start(main, { env: { DATABASE_URL: owner, DATABASE_OWNER_URL: owner } })
    expect(await swapped.ended).toBe(2)
    expect(swapped.said()).toContain('may do all that its owner may')
  })

  test('follows an owner whose password changed', async () => {
    const url = await database('careful', true)
    const before = await start(main, { env: { DATABASE_URL: url } })
    expect(await before.kill('SIGTERM')).toBe(0)
    await administrator`alter role careful password 'another'`
    const after = await start(main, { env: { DATABASE_URL: url.replace('of%20careful', 'another') } })
    expect((await fetch(`${after.address}/readyz`)).status).toBe(200)
    expect(await after.kill('SIGTERM')).toBe(0)
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

async function loginOf(name: string): Promise<string> {
  const [found] = await administrator<{ oid: number }[]>`select oid from pg_database where datname = ${name}`
  return `cordsift_service_${found?.oid}`
}
