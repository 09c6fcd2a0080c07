// kill -9 at any moment: the first start, in the middle of work, the database's own process, and the guard too.
import { execFileSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { readdirSync, readFileSync, readlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { beforeAll, describe, expect, test } from 'vitest'
import { compiled, dataFolder, launch, look, type Service, serverGone, serverPid, start } from '../support/service.ts'

let main = ''
beforeAll(() => {
  main = compiled()
})

const people = (folder: string) => look(folder, (sql) => sql<{ name: string }[]>`select name from people order by id`)

/** Makes the first manager by the printed link; returns a way to add people by the page. */
async function manager({ address, said }: Service) {
  const link = /http\S+\/set-up\/\S+/.exec(said())?.[0] ?? ''
  const password = 'a long enough password'
  const headers = { origin: address }
  const form = { name: 'Fay First', password, passwordAgain: password, start: 'empty', firm: 'A firm' }
  const answer = await fetch(link, { method: 'POST', headers, body: new URLSearchParams(form), redirect: 'manual' })
  const cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? ''
  return async (name: string) => {
    const body = new URLSearchParams({ key: randomUUID(), name, role: 'inspector', password })
    const added = await fetch(`${address}/people`, {
      method: 'POST',
      headers: { ...headers, cookie },
      body,
      redirect: 'manual',
    })
    if (added.status !== 303) throw new Error(`${name}: ${added.status}`)
  }
}

/** Shell that stands between the service and its server: the parent of the server's process. */
function guardOf(folder: string): number {
  return Number(/\) \S (\d+)/.exec(readFileSync(`/proc/${serverPid(folder)}/stat`, 'utf8'))?.[1])
}

describe('kill -9', () => {
  test.each([30, 120, 300, 500, 800])(
    '%i ms into the first start leaves a folder that the next start works on',
    async (moment) => {
      const folder = dataFolder()
      const child = launch(main, { env: { DATA_DIR: folder } })
      await sleep(moment)
      child.kill('SIGKILL')
      const service = await start(main, { env: { DATA_DIR: folder } })
      expect(service.said()).toContain('/set-up/')
      expect(await people(folder)).toEqual([])
      expect(await service.kill('SIGTERM')).toBe(0)
      expect(readdirSync(folder).filter((name) => name.startsWith('draft-'))).toEqual([])
    },
  )

  test('in the middle of work loses nothing that was answered, and doubles nothing', async () => {
    const folder = dataFolder()
    const service = await start(main, { env: { DATA_DIR: folder } })
    const add = await manager(service)
    const acknowledged: string[] = []
    const work = async (worker: number) => {
      for (let turn = 1; ; turn++) {
        await add(`Worker ${worker} turn ${turn}`)
        acknowledged.push(`Worker ${worker} turn ${turn}`)
      }
    }
    const workers = Promise.allSettled([work(1), work(2), work(3)])
    while (acknowledged.length < 12) await sleep(5)
    expect(await service.kill('SIGKILL')).toBe('SIGKILL')
    await workers
    await serverGone(folder) // its guard closes it in good order
    const next = await start(main, { env: { DATA_DIR: folder } })
    const names = (await people(folder)).map(({ name }) => name)
    expect(names).toEqual(expect.arrayContaining(acknowledged))
    expect(new Set(names).size).toBe(names.length)
    expect(next.said()).not.toContain('/set-up/')
    expect(await next.kill('SIGTERM')).toBe(0)
  })

  test('of the database under a living service: it comes back by itself with everything', async () => {
    const folder = dataFolder()
    const service = await start(main, { env: { DATA_DIR: folder } })
    const add = await manager(service)
    await add('Before')
    const pid = serverPid(folder)
    process.kill(pid, 'SIGKILL')
    while (!service.said().includes('was started again')) await sleep(20)
    expect(serverPid(folder)).not.toBe(pid)
    expect((await fetch(`${service.address}/readyz`)).status).toBe(200)
    await add('After')
    expect((await people(folder)).map(({ name }) => name)).toEqual(['Fay First', 'Before', 'After'])
    expect(await service.kill('SIGTERM')).toBe(0)
  })

  test('of the service and its guard leaves a server that the next start shuts down, and works on one of its own', async () => {
    const folder = dataFolder()
    const service = await start(main, { env: { DATA_DIR: folder } })
    const add = await manager(service)
    await add('Before')
    const left = serverPid(folder)
    process.kill(guardOf(folder), 'SIGKILL')
    await service.kill('SIGKILL')
    expect(serverPid(folder)).toBe(left)
    const next = await start(main, { env: { DATA_DIR: folder } })
    expect(serverPid(folder)).not.toBe(left)
    expect(() => readlinkSync(`/proc/${left}/cwd`)).toThrow() // it works no more, though nobody may have buried it
    expect((await people(folder)).map(({ name }) => name)).toEqual(['Fay First', 'Before'])
    expect(await next.kill('SIGTERM')).toBe(0)
  })

  test('and a pid file whose number went to another process meanwhile', async () => {
    const folder = dataFolder()
    const service = await start(main, { env: { DATA_DIR: folder } })
    await service.kill('SIGTERM')
    const file = join(folder, 'cluster/postmaster.pid')
    writeFileSync(file, `${process.pid}\n${join(folder, 'cluster')}\n`)
    execFileSync('chown', ['--reference', join(folder, 'cluster'), file])
    const next = await start(main, { env: { DATA_DIR: folder } })
    expect(next.address).not.toBe('')
    expect(serverPid(folder)).not.toBe(process.pid)
    expect(await next.kill('SIGTERM')).toBe(0)
  })
})
