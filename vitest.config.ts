import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['test/**/*.test.{ts,tsx}'],
    globalSetup: 'test/support/postgres.ts',
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
})
