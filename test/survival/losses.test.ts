// The database taken from under eight writers who record at that moment: the process stays, nothing is lost, everybody goes on.
import { beforeAll, expect, test } from 'vitest'
import { embedded, managed } from '../../bench/losses/databases.ts'
import { makePlaces } from '../../bench/losses/ground.ts'
import { hurt, type Victim } from '../../bench/losses/hurt.ts'
import { startWriters } from '../../bench/losses/writers.ts'
import { compiled, dataFolder, type Service, start } from '../support/service.ts'

const WRITERS = 8

let main = ''
beforeAll(() => {
  main = compiled()
})

/** Hurts in every way twice. Of the answers only 303 and 503 may come: no connection is cut, nothing broke. */
async function survives(service: Service, victim: Victim): Promise<void> {
  const writers = startWriters(service.address, await makePlaces(victim.owner, WRITERS, 2000))
  for (const way of [...Object.keys(victim.ways), ...Object.keys(victim.ways)])
    expect([way, (await hurt(victim, way, writers)).waiting]).toEqual([way, 0])
  await writers.stop()
  const { acknowledged, lost, doubled } = await writers.judge(victim.owner)
  expect(acknowledged).toBeGreaterThan(WRITERS)
  expect({ lost, doubled }).toEqual({ lost: 0, doubled: 0 })
  expect([...writers.answers.keys()].sort()).toEqual(['303', '503'])
  const places = await victim.owner<{ n: number }[]>`
    select count(*)::int as n from pg_stat_activity where application_name = 'cordsift'`
  expect(places[0]?.n).toBeGreaterThanOrEqual(WRITERS)
  expect((await fetch(`${service.address}/readyz`)).status).toBe(200)
  await victim.owner.end()
  expect(await service.kill('SIGTERM')).toBe(0)
}

test('the database that comes along', async () => {
  const DATA_DIR = dataFolder()
  await survives(await start(main, { env: { DATA_DIR } }), embedded(DATA_DIR))
})

test('a managed one', async () => {
  const server = await managed(dataFolder())
  try {
    await survives(await start(main, { env: { DATABASE_URL: server.url } }), server)
  } finally {
    server.stop()
  }
})
