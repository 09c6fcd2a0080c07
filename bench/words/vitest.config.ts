// npm run bench:words: run by vitest, as a browser is no part of what the service is built with.
import { join } from 'node:path'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: { root: join(import.meta.dirname, '../..'), include: ['bench/words/words.ts'], testTimeout: 300_000 },
})
