// The console's way back in, as its own process: while the service runs, while it does not, and where there is nothing.
import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { compiled, dataFolder, look, type Service, start } from '../support/service.ts'

const main = compiled()
const command = join(main, '../recover.js')

/** Runs the command to its end; returns its exit code and what it said. */
function recover(env: Record<string, string>, ...words: string[]): Promise<{ code: number | null; said: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [command, ...words], { env: { PATH: process.env.PATH, ...env } })
    let said = ''
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (piece: Buffer) => (said += piece.toString()))
    child.once('exit', (code) => resolve({ code, said }))
  })
}

const password = 'a long enough password'

async function send({ address }: Service, path: string, form: Record<string, string>): Promise<Response> {
  const headers = { origin: address }
  return fetch(`${address}${path}`, { method: 'POST', headers, body: new URLSearchParams(form), redirect: 'manual' })
}

const pathIn = (said: string) => /http\S+?(\/(set-up|new-password|new-manager)\/\S+)/.exec(said)?.[1] ?? ''

describe('npm run recover', () => {
  test('makes a link for the manager while the service runs and while it rests, and for a new one where none is left', async () => {
    const folder = dataFolder()
    const env = { DATA_DIR: folder, ORIGIN: 'http://cordsift.example' }
    expect(await recover(env)).toMatchObject({ code: 2, said: expect.stringContaining('There is no database in') })

    let service = await start(main, { env: { DATA_DIR: folder } })
    expect((await recover(env)).said).toContain('Nobody has an account yet')
    const first = { name: 'Fay First', password, passwordAgain: password, start: 'empty', firm: 'A firm' }
    expect((await send(service, pathIn(service.said()), first)).status).toBe(303)

    const running = await recover(env)
    expect(running).toMatchObject({ code: 0, said: expect.stringContaining('http://cordsift.example/new-password/') })
    const chosen = { password: 'another good one', passwordAgain: 'another good one' }
    expect((await send(service, pathIn(running.said), chosen)).status).toBe(303)
    expect((await send(service, '/sign-in', { name: 'fay first', password: 'another good one' })).status).toBe(303)
    const unknown = await recover(env, 'Nobody')
    expect(unknown).toMatchObject({ code: 1, said: expect.stringContaining('No active manager has the name Nobody.') })
    expect(unknown.said).toContain('  Fay First')

    await look(folder, (sql) => sql`update people set active = false`)
    await service.kill('SIGTERM')
    const resting = await recover(env)
    expect(resting).toMatchObject({ code: 0, said: expect.stringContaining('No manager has an active account') })
    service = await start(main, { env: { DATA_DIR: folder } })
    const form = { name: 'Nils Next', ...chosen }
    expect((await send(service, pathIn(resting.said), form)).status).toBe(303)
    expect(await look(folder, (sql) => sql`select name from people where active`)).toEqual([{ name: 'Nils Next' }])
    expect(await service.kill('SIGTERM')).toBe(0)
  })
})
