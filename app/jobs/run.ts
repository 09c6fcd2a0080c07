// Background work: runs each job at its interval while the service lives, in one replica at a time.
import { setTimeout as sleep } from 'node:timers/promises'
import { sql } from 'drizzle-orm'
import type { Logger } from 'pino'
import type { Db, Tx } from '../../db/client.ts'
import { faultOf } from '../kit/fault.ts'

export type Job = {
  name: string
  /** milliseconds from the end of one run to the next */
  every: number
  /** A bounded slice of the work, in a transaction of its own. True: more is left, go on at once. */
  work: (tx: Tx) => Promise<boolean>
}

export type RunningJobs = {
  /** Begins no more work; returns when the slice at hand is finished, or after five seconds. */
  stop(): Promise<void>
}

const LONGEST_STOP = 5000

/** Runs every job now and then at its interval. A job that fails is logged and tried again at its next turn; nothing here throws. */
export function startJobs(db: Db, log: Logger, jobs: readonly Job[]): RunningJobs {
  const stopping = new AbortController()
  const loops = jobs.map((job) => keepRunning(db, log, job, stopping.signal))
  return {
    async stop() {
      stopping.abort()
      const late = new AbortController()
      await Promise.race([Promise.all(loops), pause(LONGEST_STOP, late.signal)])
      late.abort()
    },
  }
}

async function keepRunning(db: Db, log: Logger, job: Job, signal: AbortSignal): Promise<void> {
  while (!signal.aborted) {
    try {
      while ((await runSlice(db, job)) && !signal.aborted);
    } catch (error) {
      log.error({ job: job.name, ...faultOf(error).forTheLog }, 'job failed')
    }
    await pause(job.every, signal)
  }
}

/** The lock ends with the transaction, so a replica that dies holds nothing up. Where another one has it, that one does the work. */
function runSlice(db: Db, { name, work }: Job): Promise<boolean> {
  return db.transaction(async (tx) => {
    const lock = sql`pg_try_advisory_xact_lock(hashtext('job'), hashtext(${name}))`
    const [row] = await tx.execute<{ mine: boolean }>(sql`select ${lock} as mine`)
    return row?.mine === true && work(tx)
  })
}

/** Ends early where the signal does. */
async function pause(milliseconds: number, signal: AbortSignal): Promise<void> {
  await sleep(milliseconds, undefined, { signal }).catch((error: unknown) => {
    if (!signal.aborted) throw error
  })
}
