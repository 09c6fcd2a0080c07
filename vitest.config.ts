import { defineConfig } from 'vitest/config'
import { mendLibrary } from './db/mend/mend.ts'

mendLibrary() // before any test loads it; npm run build does it for the service

export default defineConfig({
  test: {
    include: ['test/**/*.test.{ts,tsx}'],
    globalSetup: 'test/support/postgres.ts',
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
})
