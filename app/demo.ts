// npm run demo: the service on the example, in a temporary folder of its own, for this machine alone.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { plantExample, setUpExample } from '../seed/example.ts'
import { examplePassword, scenarioPeople } from '../seed/scenario.ts'
import { readConfig } from './config.ts'
import { loopback } from './kit/host.ts'
import { run, say, sayWhy } from './run.ts'

const folder = mkdtempSync(join(tmpdir(), 'cordsift-demo-'))
const clear = () => rmSync(folder, { recursive: true, force: true })

try {
  const config = readConfig({ ...process.env, DATABASE_URL: '', DATABASE_OWNER_URL: '', DATA_DIR: folder, ORIGIN: '' })
  if (!loopback(config.host))
    throw new Error(`HOST=${config.host}: the demonstration is for this machine alone, so 127.0.0.1 or localhost`)
  say('Making the example …')
  await run(config, {
    demo: { password: examplePassword },
    example: { setUp: setUpExample, names: Object.values(scenarioPeople) },
    async prepare(database, address) {
      await database.asOwner(plantExample)
      return [`The example is ready: ${address}`]
    },
    afterwards: clear,
  })
} catch (error) {
  sayWhy(error)
  clear()
  process.exit(2)
}
