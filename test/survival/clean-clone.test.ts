// What the README promises of a clean clone: install without the tools of development, start, answer, end.
import { spawn, spawnSync } from 'node:child_process'
import { cpSync, mkdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'
import { dataFolder } from '../support/service.ts'

/** Of the service that the test started; it lives in a group of its own, so that npm's shell goes with it. */
let group = 0
afterAll(() => {
  if (group > 0) process.kill(-group, 'SIGKILL')
})

test('npm ci --omit=dev && npm start gives a service that is ready, and SIGTERM to npm ends it', async () => {
  const clone = cloned()
  const installed = spawnSync('npm', ['ci', '--omit=dev', '--ignore-scripts'], { cwd: clone, encoding: 'utf8' })
  expect([installed.status, installed.stderr]).toEqual([0, expect.any(String)])

  const env = { PATH: process.env.PATH, HOME: process.env.HOME, PORT: '0', LOG_LEVEL: 'warn', DATA_DIR: dataFolder() }
  const service = spawn('npm', ['start'], { cwd: clone, env, detached: true, stdio: ['ignore', 'ignore', 'pipe'] })
  group = service.pid ?? 0
  let said = ''
  const ended = new Promise<number | null>((resolve) => service.once('exit', resolve))
  const address = await new Promise<string>((resolve, reject) => {
    service.stderr.on('data', (piece: Buffer) => {
      said += piece.toString()
      const ready = /Cordsift is ready: (\S+)/.exec(said)?.[1]
      if (ready !== undefined) resolve(ready)
    })
    void ended.then(() => reject(new Error(said)))
  })
  expect((await fetch(`${address}/readyz`)).status).toBe(200)
  expect(await (await fetch(`${address}/?lot=480&limit=5`)).text()).toContain('216')
  service.kill('SIGTERM')
  expect(await ended).toBe(0)
  group = 0
  expect(said).toContain('Closed')
})

/** The files that git knows or would take, as a clone of them would be. */
function cloned(): string {
  const to = join(dataFolder(), 'clone')
  const listed = spawnSync('git', ['ls-files', '-co', '--exclude-standard', '-z'], {
    cwd: projectRoot,
    encoding: 'utf8',
  })
  if (listed.status !== 0) throw new Error(`git lists no files: ${listed.stderr}`)
  for (const path of listed.stdout.split('\0').filter((path) => path !== '')) {
    mkdirSync(dirname(join(to, path)), { recursive: true })
    cpSync(join(projectRoot, path), join(to, path))
  }
  return to
}
