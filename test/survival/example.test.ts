// kill -9 while the example is planted: nothing of it is left, above all no account with a password that everybody knows.
import { setTimeout as sleep } from 'node:timers/promises'
import { beforeAll, expect, test } from 'vitest'
import { examplePassword, scenarioPeople } from '../../seed/scenario.ts'
import { compiled, dataFolder, look, type Service, start } from '../support/service.ts'

let main = ''
beforeAll(() => {
  main = compiled()
})

const password = 'five words in one row'
const linkOf = ({ said }: Service) => /http\S+\/set-up\/\S+/.exec(said())?.[0]

function post(address: string, path: string, form: Record<string, string>): Promise<Response> {
  const body = new URLSearchParams(form)
  return fetch(new URL(path, address), { method: 'POST', headers: { origin: address }, body, redirect: 'manual' })
}

const choose = (service: Service) =>
  post(service.address, linkOf(service) ?? '', {
    name: 'Fay First',
    password,
    passwordAgain: password,
    start: 'example',
    firm: '',
  })

/** Whether the planting has come to write into this table: its transaction holds a lock there until it ends. */
const planting = (folder: string, table: string) =>
  look(folder, async (sql) => {
    const held = await sql`select from pg_locks where relation = ${table}::regclass and mode = 'RowExclusiveLock'`
    return held.length > 0
  })

test.each(['people', 'lots', 'results', 'decisions'])(
  'kill -9 as soon as %s are planted leaves nothing, and the link is offered again',
  async (table) => {
    const folder = dataFolder()
    const cut = await start(main, { env: { DATA_DIR: folder } })
    const answer = choose(cut).then(
      () => 'answered',
      () => 'cut',
    )
    while (!(await planting(folder, table))) await sleep(5)
    await cut.kill('SIGKILL')
    expect(await answer).toBe('cut')

    const service = await start(main, { env: { DATA_DIR: folder } })
    expect(linkOf(service)).toBeDefined()
    const [left] = await look(
      folder,
      (sql) => sql`select (select count(*) from people)::int as people, (select count(*) from firms)::int as firms,
        (select count(*) from lots)::int as lots, (select count(*) from audit)::int as lines`,
    )
    expect(left).toEqual({ people: 0, firms: 0, lots: 0, lines: 0 })
    if (table === 'decisions') await plantedWhole(service)
    expect(await service.kill('SIGTERM')).toBe(0)
  },
)

async function plantedWhole(service: Service): Promise<void> {
  expect((await choose(service)).status).toBe(303)
  const as = (typed: string) =>
    post(service.address, '/sign-in', { name: scenarioPeople.manager, password: typed, back: '/lots' })
  expect((await as(examplePassword)).status).toBe(422)
  expect((await as(password)).status).toBe(303)
}
