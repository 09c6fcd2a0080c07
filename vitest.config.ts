import { defineConfig } from 'vitest/config'
import { mendLibrary } from './db/mend/mend.ts'

mendLibrary() // before any test loads it; npm run build does it for the service

const engine = ['test/statistics/**/*.test.ts', 'test/published/**/*.test.ts', 'test/goldens/**/*.test.ts']

export default defineConfig({
  test: {
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    projects: [
      // pure: no database is started for it
      { extends: true, test: { name: 'engine', include: engine } },
      {
        extends: true,
        test: {
          name: 'service',
          include: ['test/**/*.test.{ts,tsx}'],
          exclude: [...engine, '**/node_modules/**'],
          globalSetup: 'test/support/postgres.ts',
        },
      },
    ],
  },
})
