// What every released version wrote can be read: its dump is restored at its own schema, brought to this one, and worked on.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import postgres from 'postgres'
import { afterAll, describe, expect, inject, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'
import { version } from '../../app/version.ts'
import { restoreBackup } from '../../db/backup/restore.ts'
import { databaseOver } from '../../db/client.ts'
import { openPool } from '../../db/connect.ts'
import { brokenInvariants } from '../../db/invariants.ts'
import { ownLogin } from '../../db/login.ts'
import { lots } from '../../db/schema/lots.ts'
import { people } from '../../db/schema/people.ts'
import { testApp } from '../support/app.ts'
import { textOf } from '../support/page-text.ts'

const folder = join(projectRoot, 'test/fixtures')
const dumps = readdirSync(folder).filter((name) => name.endsWith('.backup.gz'))
const main = postgres({ ...inject('postgres'), max: 1, onnotice: () => {} })
afterAll(() => main.end())

test('there is a dump of every version that the changes name, and they name this one', () => {
  const changes = readFileSync(join(projectRoot, 'CHANGELOG.md'), 'utf8')
  const versions = [...changes.matchAll(/^## (\d+\.\d+\.\d+)$/gm)].map(([, name]) => name)
  expect(versions[0]).toBe(version)
  expect(dumps.sort()).toEqual(versions.map((name) => `${name}.backup.gz`).sort())
})

describe.each(dumps)('%s', (dump) => {
  test('is brought to this version with every rule kept, every page of every lot answers, and what was signed gives its digest', async () => {
    const database = `release_${dump.replace(/\W/g, '_')}`
    await main`create database ${main(database)} template template0`
    const address = { ...inject('postgres'), database }
    await restoreBackup(address, join(folder, dump))
    const owner = postgres({ ...address, max: 1, onnotice: () => {} })
    expect(await brokenInvariants(owner)).toEqual([])
    const pool = openPool(await ownLogin(address), 4)
    const everybody = await databaseOver(owner).select().from(people)
    const manager = everybody.find((person) => person.active && person.role === 'manager')
    if (!manager) throw new Error('the dump has no manager')
    const client = await testApp(pool.db).appAs({ ...manager, separateDuties: true })
    for (const { id, state } of await databaseOver(owner).select({ id: lots.id, state: lots.state }).from(lots)) {
      const decided = ['accepted', 'conceded', 'screening', 'screened', 'sorted', 'returned'].includes(state)
      const paths = decided ? ['', '/draw', '/evidence', '/taken-out'] : ['']
      for (const path of paths) {
        const answer = await client.get(`/lots/${id}${path}`)
        expect([answer.status, `/lots/${id}${path}`, state]).toEqual([200, `/lots/${id}${path}`, state])
        if (path === '/evidence') expect(textOf(await answer.text())).toContain('still give this digest')
      }
    }
    for (const path of ['/lots', '/suppliers', '/suppliers/1', '/items', '/people', '/audit', '/percentage'])
      expect([(await client.get(path)).status, path]).toEqual([200, path])
    await pool.close()
    await owner.end()
    await main`drop database ${main(database)} with (force)`
  })
})
