// npm run backup -- FILE: the whole record as it stands at one moment, into a file, while the service works or rests.
import { resolve } from 'node:path'
import { withConnection } from '../db/address.ts'
import { backUpTo } from '../db/backup/file.ts'
import { reachOwner } from '../db/reach.ts'
import { readConfig } from './config.ts'
import { say, sayWhy } from './run.ts'
import { version } from './version.ts'

try {
  const path = resolve(
    process.argv[2] ?? `cordsift-${new Date().toISOString().slice(0, 19).replaceAll(':', '-')}.backup.gz`,
  )
  const { place } = readConfig(process.env)
  const { tables, bytes } = await reachOwner(place, { make: false }, (owner) =>
    withConnection(owner, (sql) => backUpTo(sql, path, version)),
  )
  const rows = [...tables.values()].reduce((sum, table) => sum + table.rows, 0)
  say(`${path}: ${rows} rows of ${tables.size} tables in ${bytes} bytes`)
} catch (error) {
  sayWhy(error)
  process.exitCode = 2
}
