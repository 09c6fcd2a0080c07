// npm run recover -- NAME: a one-time link for a manager who cannot come in, made on the machine itself, while the service works or rests.
import { withConnection } from '../db/address.ts'
import { databaseOver } from '../db/client.ts'
import { reachOwner } from '../db/reach.ts'
import { readConfig } from './config.ts'
import { type Recovery, recover } from './people/passwords/recover.ts'
import { say, sayWhy } from './run.ts'

try {
  const config = readConfig(process.env)
  const typed = process.argv.slice(2).join(' ').trim()
  const name = typed === '' ? undefined : typed
  const recovery = await reachOwner(config.place, { make: false }, (owner) =>
    withConnection(owner, (sql) => recover(databaseOver(sql), name)),
  )
  say(...linesFor(recovery, { name, address: config.origin ?? `http://${config.host}:${config.port}` }))
  process.exitCode = recovery.kind === 'link' ? 0 : 1
} catch (error) {
  sayWhy(error)
  process.exitCode = 2
}

type Asked = { name: string | undefined; address: string }

function linesFor(recovery: Recovery, { name, address }: Asked): string[] {
  switch (recovery.kind) {
    case 'empty':
      return ['Nobody has an account yet: start the service, and open the set-up link that it prints']
    case 'choose':
      return [
        ...(name === undefined ? [] : [`No active manager has the name ${name}.`]),
        'Name the manager to make a link for: npm run recover -- NAME',
        'Active managers:',
        ...recovery.managers.map((manager) => `  ${manager}`),
      ]
    case 'link': {
      const { forWhom, path, hours } = recovery
      const act = forWhom === undefined ? 'become a manager' : `choose a new password for ${forWhom}`
      return [
        ...(forWhom === undefined ? ['No manager has an active account any more.'] : []),
        `Open this link once, within ${hours === 1 ? 'an hour' : `${hours} hours`}, to ${act}: ${address}${path}`,
      ]
    }
  }
}
