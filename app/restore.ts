// npm run restore -- FILE: a backup into an empty place, which DATA_DIR or DATABASE_URL names.
import { resolve } from 'node:path'
import { restoreBackup } from '../db/backup/restore.ts'
import { reachOwner } from '../db/reach.ts'
import { readConfig } from './config.ts'
import { say, sayWhy } from './run.ts'

try {
  const named = process.argv[2]
  if (named === undefined) throw new Error('Name the backup: npm run restore -- FILE')
  const { place, notice } = readConfig(process.env)
  if (notice !== undefined) say(notice)
  const { made, tables } = await reachOwner(place, { make: true }, (owner) => restoreBackup(owner, resolve(named)))
  for (const [table, { rows }] of tables) say(`${table}: ${rows}`)
  say(`Restored as it stood at ${made}: every row compared with the backup, every rule of the record kept`)
} catch (error) {
  sayWhy(error)
  process.exitCode = 2
}
