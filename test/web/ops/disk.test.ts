// A full disk is told as one: on the page of who wanted to write, and to whoever keeps the service, until there is room again.
import { sql } from 'drizzle-orm'
import { describe, expect, test } from 'vitest'
import { faultOf } from '../../../app/kit/fault.ts'
import { watchDisk } from '../../../app/web/ops/disk.ts'
import { healthRoutes } from '../../../app/web/ops/health.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { textOf } from '../../support/page-text.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const { officer } = await threePeople(db)
const service = testApp(db)

/** PostgreSQL's own code, raised where a supplier is added: a disk that is really full needs one of one's own. */
const refuseSuppliersWith = (code: string) =>
  owner.unsafe(`create or replace function refuse() returns trigger language plpgsql as
    $$ begin raise exception 'could not extend file' using errcode = '${code}'; end $$;
    create or replace trigger refuse before insert on suppliers for each row execute function refuse()`)

const add = async () => {
  const client = await service.appAs(officer)
  return client.post('/suppliers', { key: crypto.randomUUID(), name: 'Brass Heron Leads' })
}

describe('a change that is refused', () => {
  // Codes: PostgreSQL's manual, appendix A (class 53); ENOSPC is the system's own.
  test.each([
    ['53100', 507, 'The disk is full'],
    ['53200', 503, 'Short of memory'],
  ])('by %s is answered %i: %s', async (code, status, title) => {
    await refuseSuppliersWith(code)
    const answer = await add()
    expect(answer.status).toBe(status)
    expect(textOf(await answer.text())).toContain(title)
    await owner`drop trigger refuse on suppliers`
  })

  test('by the system itself is the same', () => {
    expect(faultOf(Object.assign(new Error('no space'), { code: 'ENOSPC' })).kind).toBe('full')
  })
})

describe('whether the disk is full', () => {
  test('is asked after a refusal, said by /readyz, and over as soon as there is room', async () => {
    const asked = { room: false, times: 0 }
    const disk = watchDisk(async () => {
      asked.times += 1
      return asked.room
    })
    const ready = () => healthRoutes(() => db, disk).request('/readyz')
    expect([(await ready()).status, asked.times]).toEqual([200, 0])
    disk.refused()
    const answer = await ready()
    expect([answer.status, await answer.text()]).toEqual([503, 'not ready: the disk of the database is full\n'])
    asked.room = true
    expect((await ready()).status).toBe(200)
    expect([(await ready()).status, asked.times]).toEqual([200, 2])
  })

  test('is asked by making it write more than its memory takes', async () => {
    const disk = watchDisk()
    const written = async () => {
      const [row] = await owner<
        { bytes: string }[]
      >`select temp_bytes as bytes from pg_stat_database where datname = current_database()`
      return Number(row?.bytes)
    }
    disk.refused()
    expect(await disk.isFull(db)).toBe(false)
    await db.execute(sql`select pg_stat_force_next_flush()`)
    await expect.poll(written).toBeGreaterThan(1_000_000)
  })
})
