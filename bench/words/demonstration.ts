// The demonstration as a process of its own, at a port that is free.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import { createInterface } from 'node:readline'
import { projectRoot } from '../../app/kit/root.ts'

/** Ready when this returns; `end` waits until it has cleared its folder away. */
export async function demonstration(): Promise<{ address: string; end: () => Promise<void> }> {
  const port = await freePort()
  const service = spawn('node', ['dist/app/demo.js'], {
    cwd: projectRoot,
    env: { ...process.env, PORT: String(port) },
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  const ended = once(service, 'exit')
  await new Promise<void>((resolve, reject) => {
    createInterface(service.stderr).on('line', (line) => line.includes('is ready') && resolve())
    service.on('exit', (code) => reject(new Error(`the demonstration ended with ${code}`)))
  })
  return {
    address: `http://127.0.0.1:${port}`,
    async end() {
      service.kill('SIGTERM')
      await ended
    },
  }
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const bound = probe.address()
  probe.close()
  return typeof bound === 'object' && bound !== null ? bound.port : 0
}
