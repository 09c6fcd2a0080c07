// Behind a pooler in transaction mode: the whole job, limits that hold, no lock left behind, and never a session of the owner.
import postgres from 'postgres'
import { beforeAll, describe, expect, test } from 'vitest'
import { visitor, wholeJob } from '../support/job.ts'
import { managedServer } from '../support/managed.ts'
import { poolerBefore } from '../support/pooler.ts'
import { compiled, start } from '../support/service.ts'

const server = await managedServer()
const { administrator } = server
const pooler = await poolerBefore(server)
let main = ''
beforeAll(() => {
  main = compiled()
})

const linkIn = (said: string) => /http\S+\/set-up\/\S+/.exec(said)?.[0] ?? ''

const locks = () => administrator<{ objid: number }[]>`select objid from pg_locks where locktype = 'advisory'`

describe('two services behind a pooler in transaction mode', () => {
  test('do a whole job between them, from the link of the one that started first', async () => {
    const url = await server.database('harbour', true)
    const env = { DATABASE_URL: pooler.through(url), ONE_PERSON_FIRM: 'on' }
    const services = await Promise.all([start(main, { env }), start(main, { env })])
    const third = await start(main, { env }) // its link does not end the earlier ones
    const person = visitor(services.map(({ address }) => address))
    expect(await wholeJob(person, linkIn(services[0]?.said() ?? ''))).toContain('Accepted')
    for (const service of services) expect((await fetch(`${service.address}/readyz`)).status).toBe(200)
    expect(await locks()).toEqual([])

    const sql = postgres(url, { max: 1 })
    const kept =
      await sql`select state::text, (select count(*)::int from results) as results, (select count(*)::int from decisions) as decisions from lots`
    expect(kept).toEqual([{ state: 'accepted', results: 2, decisions: 1 }])
    const sessions = await sql<{ login: string }[]>`
      select distinct usename as login from pg_stat_activity where datname = 'harbour' and application_name = 'cordsift'
        and usename <> 'administrator'` // whom the pooler asks for passwords
    expect(sessions).toEqual([{ login: expect.stringMatching(/^cordsift_service_\d+$/) }])
    await sql.end()
    for (const service of [...services, third]) expect(await service.kill('SIGTERM')).toBe(0)
  })

  test('keep their limits, which the pooler cannot drop', async () => {
    const url = await server.database('limits', true)
    const service = await start(main, { env: { DATABASE_URL: pooler.through(url) } })
    const [role] = await administrator<{ name: string; password: string }[]>`
      select 'cordsift_service_' || oid as name from pg_database where datname = 'limits'`
    await administrator.unsafe(`alter role ${role?.name} password 'known to the test'`)
    const login = url.replace('limits:of%20limits', `${role?.name}:known%20to%20the%20test`)
    const sql = postgres(pooler.through(login), { max: 1, prepare: false, connection: { statement_timeout: 0 } })
    expect(
      await sql`select session_user = current_user as itself, current_setting('statement_timeout') as statement,
        current_setting('lock_timeout') as lock, current_setting('idle_in_transaction_session_timeout') as idle`,
    ).toEqual([{ itself: true, statement: '20s', lock: '10s', idle: '30s' }])
    await expect(sql`delete from audit`).rejects.toMatchObject({ code: '42501' })
    await sql.end()
    expect(await service.kill('SIGTERM')).toBe(0)
  })
})

describe('a start that is refused behind a pooler', () => {
  test('leaves no lock and no table', async () => {
    const url = await server.database('ledger', true)
    const sql = postgres(url, { max: 1 })
    await sql`create table invoices (id int)`
    const service = await start(main, { env: { DATABASE_URL: pooler.through(url) } })
    expect(await service.ended).toBe(2)
    expect(service.said()).toContain('used for something else (it holds public.invoices)')
    expect(await locks()).toEqual([])
    await sql`drop table invoices`
    await sql.end()
    const again = await start(main, { env: { DATABASE_URL: url } })
    expect(await again.kill('SIGTERM')).toBe(0)
  })

  test('says so where the pooler makes everybody the owner', async () => {
    const url = await server.database('bent', true)
    const bent = await poolerBefore(server, 'bent')
    const service = await start(main, { env: { DATABASE_URL: bent.through(url) } })
    expect(await service.ended).toBe(2)
    expect(service.said()).toContain('as bent (logged in as bent), who may do all that its owner may')
    expect(await locks()).toEqual([])
  })
})
