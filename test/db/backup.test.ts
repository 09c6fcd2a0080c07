// A backup into an empty place and back: every row, every rule; a damaged one leaves the place as empty as it was.
import { createHash } from 'node:crypto'
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import postgres from 'postgres'
import { afterAll, describe, expect, inject, test } from 'vitest'
import { backUpTo } from '../../db/backup/file.ts'
import { restoreBackup } from '../../db/backup/restore.ts'
import { brokenInvariants } from '../../db/invariants.ts'
import { plantExample } from '../../seed/example.ts'
import { freshDatabase } from '../support/database.ts'

const { db, owner, ownerDb } = await freshDatabase()
await plantExample(ownerDb)
const folder = mkdtempSync(join(tmpdir(), 'cordsift-backup-'))
const path = join(folder, 'one.gz')
const written = await backUpTo(owner, path, '0.2.0')
const main = postgres({ ...inject('postgres'), max: 1, onnotice: () => {} })
const places: string[] = []
afterAll(async () => {
  for (const place of places) await main`drop database ${main(place)} with (force)`
  await main.end()
  rmSync(folder, { recursive: true })
})

/** A database without a table. */
async function emptyPlace() {
  const database = `place_${places.length}_${createHash('sha256').update(folder).digest('hex').slice(0, 8)}`
  places.push(database)
  await main`create database ${main(database)} template template0`
  return { ...inject('postgres'), database }
}

const tablesIn = async (address: Awaited<ReturnType<typeof emptyPlace>>) => {
  const sql = postgres({ ...address, max: 1, onnotice: () => {} })
  try {
    return (await sql`select relname from pg_class where relnamespace = 'public'::regnamespace`).length
  } finally {
    await sql.end()
  }
}

describe('a backup', () => {
  test('is one file for its owner alone, holds every table of the record and no session', () => {
    expect(statSync(path).mode & 0o777).toBe(0o600)
    expect(existsSync(`${path}.part`)).toBe(false)
    expect(written.tables.get('lots')?.rows).toBeGreaterThan(10)
    for (const table of ['sessions', 'password_attempts', 'event_counts', 'one_time_links', 'service_login'])
      expect(written.tables.has(table), table).toBe(false)
  })

  test('overwrites nothing', async () => {
    await expect(backUpTo(owner, path, '0.2.0')).rejects.toThrow('is there already')
  })

  test('restored gives every row again, every rule kept, and numbers go on where they were', async () => {
    const place = await emptyPlace()
    const restored = await restoreBackup(place, path)
    expect(restored.tables).toEqual(written.tables)
    const sql = postgres({ ...place, max: 1, onnotice: () => {} })
    expect(await brokenInvariants(sql)).toEqual([])
    const said = await sql<{ at: string; detail: string }[]>`select at::text, detail::text from audit order by id`
    expect(said).toEqual(await owner`select at::text, detail::text from audit order by id`)
    const [next] = await sql<{ id: number }[]>`
      insert into suppliers (name, created_by) select 'Next', min(id) from people returning id`
    const [last] = await owner<{ id: number }[]>`select max(id) as id from suppliers`
    expect(next?.id).toBe((last?.id ?? 0) + 1)
    await expect(sql`delete from audit`).rejects.toMatchObject({ constraint_name: 'written_once' })
    const again = join(folder, 'again.gz')
    await sql`delete from suppliers where name = 'Next'`
    expect((await backUpTo(sql, again, '0.2.0')).tables).toEqual(written.tables)
    await sql.end()
  })

  test('is refused by a place that is not empty', async () => {
    const { database } = (await owner<{ database: string }[]>`select current_database() as database`)[0] ?? {
      database: '',
    }
    await expect(restoreBackup({ ...inject('postgres'), database }, path)).rejects.toThrow('into an empty place only')
  })
})

const text = gunzipSync(readFileSync(path)).toString()
const packed = (changed: string) => gzipSync(changed)
/** As somebody would who knows the form: the whole's checksum made to agree again. */
const sealed = (body: string) =>
  `${body}#${JSON.stringify({ whole: createHash('sha256').update(body).digest('hex') })}\n`
const body = text.slice(0, text.lastIndexOf('#{"whole"'))

describe('a file that is', () => {
  const file = readFileSync(path)
  test.each<[string, Buffer, string]>([
    ['empty', Buffer.alloc(0), 'damaged or cut off'],
    ['no compressed file', Buffer.from(text), 'damaged or cut off'],
    ['cut off', file.subarray(0, file.length - 200), 'damaged or cut off'],
    ['cut off at a line', packed(text.slice(0, text.indexOf('#{"table":"lots"'))), 'it is cut off'],
    ['without its end', packed(body), 'it is cut off'],
    ['longer than it was', packed(`${text}{}\n`), 'something stands after its end'],
    ['another file', packed('position,crosstalk margin\n1,2\n'), 'does not begin as a Cordsift backup'],
    ['changed in a row', packed(text.replace('"lot_id": 1,', '"lot_id": 2,')), 'does not agree'],
    ['changed in a row and sealed again', packed(sealed(body.replace('"found": 0', '"found": 1'))), 'does not agree'],
    [
      'without a table',
      packed(sealed(body.replace(/#\{"table":"audit"\}[\s\S]*?#\{"end":"audit".*\n/, ''))),
      'it lacks audit',
    ],
    [
      'made by steps that nobody knows',
      packed(sealed(body.replace(/"steps":\["./, '"steps":["0'))),
      'which this version does not know',
    ],
  ])('%s is refused with the reason, and the place stays empty', async (name, bytes, reason) => {
    const damaged = join(folder, `${name}.gz`)
    writeFileSync(damaged, bytes)
    const place = await emptyPlace()
    await expect(restoreBackup(place, damaged)).rejects.toThrow(reason)
    expect(await tablesIn(place)).toBe(0)
  })

  test('not there is said', async () => {
    await expect(restoreBackup(await emptyPlace(), join(folder, 'none.gz'))).rejects.toThrow('there is no')
  })
})

test('ten backups taken while results are written all restore, each as of one moment', async () => {
  const lots = await owner<{ id: number }[]>`select id from lots where state = 'drawn' order by id limit 1`
  expect(lots.length).toBe(1)
  let writing = true
  let wrote = 0
  const writers = [1, 2, 3, 4].map(async (writer) => {
    for (let turn = 0; writing; turn++) {
      await db.transaction(async (tx) => {
        await tx.execute(
          `insert into suppliers (name, created_by) select 'Maker ${writer}/${turn}', min(id) from people`,
        )
        await tx.execute(
          `insert into audit (person_name, action, subject, detail) values ('', 'supplier.registered', 'supplier/0', '{}')`,
        )
      })
      wrote += 1
    }
  })
  const before = await owner<
    { extra: number }[]
  >`select count(*)::int - (select count(*) from suppliers)::int as extra from audit`
  const files = Array.from({ length: 10 }, (_, turn) => join(folder, `busy-${turn}.gz`))
  for (const file of files) await backUpTo(owner, file, '0.2.0')
  writing = false
  await Promise.all(writers)
  expect(wrote).toBeGreaterThan(10)
  for (const file of files) {
    const place = await emptyPlace()
    await restoreBackup(place, file)
    const sql = postgres({ ...place, max: 1, onnotice: () => {} })
    const after = await sql`select count(*)::int - (select count(*) from suppliers)::int as extra from audit`
    expect(after).toEqual(before)
    await sql.end()
  }
})
