// npm run invariants: whether the record keeps its own rules, asked of the database while the service works or rests.
import { withConnection } from '../db/address.ts'
import { brokenInvariants, invariants } from '../db/invariants.ts'
import { reachOwner } from '../db/reach.ts'
import { readConfig } from './config.ts'
import { sayWhy } from './run.ts'

try {
  const { place } = readConfig(process.env)
  const broken = await reachOwner(place, { make: false }, (owner) => withConnection(owner, brokenInvariants))
  for (const { name } of invariants) {
    const found = broken.find((one) => one.name === name)
    console.log(`${found ? `BROKEN ${found.broken} times` : 'kept'}: ${name}`)
  }
  process.exitCode = broken.length > 0 ? 1 : 0
} catch (error) {
  sayWhy(error)
  process.exitCode = 2
}
