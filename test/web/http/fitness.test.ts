// A process that finds itself the owner, without limits, or behind the schema says so, and does not do what it must not.
import { sql } from 'drizzle-orm'
import { afterEach, describe, expect, test } from 'vitest'
import { connectTo } from '../../../db/address.ts'
import { type Db, databaseOver } from '../../../db/client.ts'
import { openPool } from '../../../db/connect.ts'
import { ownLogin } from '../../../db/login.ts'
import { newestStep } from '../../../db/migrate.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner, ownerDb, address } = await freshDatabase()
const { manager } = await threePeople(db)

/** As the pages and the probe answer over this database: status and what is said. */
async function answersOver(over: Db) {
  const { anybody } = testApp(over)
  const [page, form, probe] = [await anybody.get('/'), await anybody.post('/sign-in', {}), await anybody.get('/readyz')]
  return {
    page: { status: page.status, said: await page.text() },
    form: { status: form.status, said: await form.text() },
    probe: { status: probe.status, said: await probe.text() },
  }
}

describe('the service', () => {
  test('as its own login, within limits, on its own schema, is ready', async () => {
    const { page, form, probe } = await answersOver(db)
    expect([page.status, form.status, probe.status]).toEqual([200, 422, 200])
  })

  test('asks one statement before any page, of who comes and of what it works on', async () => {
    const asked: string[] = []
    const sql = connectTo(await ownLogin(address), { max: 1, debug: (_connection, query) => asked.push(query) })
    const client = await testApp(databaseOver(sql)).appAs(manager)
    await client.get('/nowhere') // opens the connection, on which the driver asks for types
    asked.length = 0
    expect((await client.get('/nowhere')).status).toBe(404)
    expect(asked).toEqual([expect.stringContaining('statement_timeout')])
    await sql.end()
  })

  test('over a session of the owner does nothing, and says who it is', async () => {
    const answers = await answersOver(ownerDb)
    for (const { status, said } of Object.values(answers)) {
      expect(status).toBe(503)
      expect(said).toContain('works in its database as postgres (logged in as postgres)')
    }
  })

  test('over a session of its login that put on another role does nothing', async () => {
    await owner.unsafe(`create role a_role; grant a_role to ${await ownName()}; grant cordsift_service to a_role`)
    const pool = openPool(await ownLogin(address), 1)
    await pool.db.execute(sql`set role a_role`)
    const { page, probe } = await answersOver(pool.db)
    expect([page.status, probe.status]).toEqual([503, 503])
    expect(probe.said).toContain('as a_role')
    await pool.close()
    await owner.unsafe(`drop owned by a_role; drop role a_role`)
  })

  test.each(['0', '3600s'])('over a session with a time limit of %s does nothing', async (limit) => {
    const pool = openPool(await ownLogin(address), 1)
    await pool.db.execute(sql.raw(`set statement_timeout = '${limit}'`))
    const answers = await answersOver(pool.db)
    for (const { status, said } of Object.values(answers)) {
      expect(status).toBe(503)
      expect(said).toContain('has no time limit')
    }
    await pool.close()
  })
})

describe('a process behind the schema of its database', () => {
  afterEach(() => owner`delete from drizzle.__drizzle_migrations where created_at > ${newestStep}`)

  test('shows pages, changes nothing, and is not ready', async () => {
    const app = testApp(db)
    const client = await app.appAs(manager)
    const seen = () => owner`update sessions set last_seen_at = now() - interval '1 hour' returning last_seen_at`
    const before = await seen()
    await owner`insert into drizzle.__drizzle_migrations (hash, created_at) values ('newer', ${newestStep + 1})`
    expect((await client.get('/people')).status).toBe(200)
    expect(await owner`select last_seen_at from sessions`).toEqual([...before])
    const refused = await client.post('/people', { name: 'Nora New', role: 'officer', password: 'long enough a word' })
    expect(refused.status).toBe(503)
    expect(await refused.text()).toContain('newer version of Cordsift')
    expect((await app.anybody.post('/sign-in', {})).status).toBe(503)
    expect(await owner`select name from people where name = 'Nora New'`).toEqual([])
    const probe = await app.anybody.get('/readyz')
    expect([probe.status, await probe.text()]).toEqual([503, expect.stringContaining('newer version of Cordsift')])
    await owner`delete from drizzle.__drizzle_migrations where created_at > ${newestStep}`
    expect((await app.anybody.get('/readyz')).status).toBe(200)
  })
})

async function ownName(): Promise<string> {
  const [row] = await db.execute<{ name: string }>(sql`select session_user::text as name`)
  return row?.name ?? ''
}
