// The last step of npm run build: mends postgres.js where npm ci has just brought the published one.
import { mendLibrary } from './mend.ts'

try {
  mendLibrary()
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`)
  process.exit(1)
}
