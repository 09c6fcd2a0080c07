// Ways to take the database from under the service, and to see when everybody can work again.
import { setTimeout as sleep } from 'node:timers/promises'
import type postgres from 'postgres'
import type { Writers } from './writers.ts'

/** A database that can be hurt. `reach` makes a connection beside the service's; `owner` is one that is kept, lost with the others and open again by itself. */
export type Victim = { reach(): postgres.Sql; owner: postgres.Sql; ways: Record<string, () => Promise<void>> }

/** What both kinds of database can suffer. */
export function commonWays(owner: postgres.Sql): Victim['ways'] {
  return {
    'a busy process killed': async () => {
      process.kill(await busyProcess(owner), 'SIGKILL')
    },
    'every connection terminated': async () => {
      await owner`select pg_terminate_backend(pid) from pg_stat_activity where pid <> pg_backend_pid() and datname is not null`
    },
  }
}

export type Recovery = {
  /** milliseconds from the loss until the database answered */
  away: number
  /** milliseconds from then until one writer had a 303 that it asked for after the loss */
  first: number
  /** milliseconds from then until every writer had one */
  until: number
  /** writers that had none in half a minute */
  waiting: number
}

const FOR_EVER = 30_000

/** Hurts once, waits for the database, then for every writer. */
export async function hurt(victim: Victim, way: string, writers: Writers): Promise<Recovery> {
  const begun = performance.now()
  await victim.ways[way]?.()
  const before = writers.done()
  await answering(victim)
  const back = performance.now()
  const since = () => Math.round(performance.now() - back)
  // a second 303 was asked for after the first, so after the loss
  const waiting = () => writers.done().filter((count, writer) => count < (before[writer] ?? 0) + 2).length
  let first: number | undefined
  while (waiting() > 0 && since() < FOR_EVER) {
    await sleep(5)
    if (waiting() < before.length) first ??= since()
  }
  return { away: Math.round(back - begun), first: first ?? FOR_EVER, until: since(), waiting: waiting() }
}

/** A new connection each time: a process of a server that was killed may go on for a moment and answer. */
async function answering({ reach }: Victim): Promise<void> {
  const deadline = performance.now() + 120_000
  for (;;) {
    const one = reach()
    const answered = await one`select 1`.then(Boolean, () => false)
    await one.end({ timeout: 1 })
    if (answered) return
    if (performance.now() > deadline) throw new Error('The database did not come back in two minutes')
    await sleep(20)
  }
}

/** A process of the service's, in the middle of a transaction if any is. */
async function busyProcess(owner: postgres.Sql): Promise<number> {
  const [busy] = await owner<{ pid: number }[]>`
    select pid from pg_stat_activity where application_name = 'cordsift' order by xact_start nulls last limit 1`
  if (!busy) throw new Error('The service has no connection')
  return busy.pid
}
