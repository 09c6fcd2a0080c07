// The worker threads: started when the first question comes, ended when none has come for a while.
import { availableParallelism } from 'node:os'
import { Piscina } from 'piscina'
import type { Threads } from './compute.ts'

/** One processor is left to the pages; a single one is shared. */
export const spareThreads = Math.max(1, Math.min(4, availableParallelism() - 1))

/** A thread takes some 20 MB; an idle one goes after a minute. */
const IDLE = 60_000

/** The threads run compiled code alone: worker.js stands beside this file once the service is built. */
export function openThreads(most: number): Threads {
  let pool: Piscina | undefined
  return {
    most,
    async run({ name }, input, signal) {
      pool ??= new Piscina({
        filename: new URL('./worker.js', import.meta.url).href,
        name: 'work',
        minThreads: 0,
        maxThreads: most,
        idleTimeout: IDLE,
      })
      return pool.run({ name, input }, { signal })
    },
    async end() {
      await pool?.destroy()
    },
  }
}
