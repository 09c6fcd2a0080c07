// npm start: the service on its own data.
import { setUpExample } from '../seed/example.ts'
import { scenarioPeople } from '../seed/scenario.ts'
import { readConfig } from './config.ts'
import { offerSetUp } from './people/accounts/set-up.ts'
import { run, sayWhy } from './run.ts'

try {
  await run(readConfig(process.env), {
    demo: undefined,
    example: { setUp: setUpExample, names: Object.values(scenarioPeople) },
    async prepare({ db }, address) {
      const key = await offerSetUp(db)
      const lines = [`Cordsift is ready: ${address}`]
      if (key !== undefined)
        lines.push(`Nobody has an account yet. Open this link once to make the first manager: ${address}/set-up/${key}`)
      return lines
    },
    afterwards: () => {},
  })
} catch (error) {
  sayWhy(error)
  process.exit(2)
}
