// Background work: in one replica at a time, again after a failure, and finished before the service goes.
import { once as onceHappened } from 'node:events'
import { sql } from 'drizzle-orm'
import pino from 'pino'
import { expect, test } from 'vitest'
import { type Job, startJobs } from '../../app/jobs/run.ts'
import { openLog } from '../../app/web/ops/log.ts'
import { freshDatabase } from '../support/database.ts'

const { db } = await freshDatabase()
const silent = openLog('silent')

/** A call to wait for, and the end of that wait. */
function gate() {
  const bell = new EventTarget()
  return { opened: onceHappened(bell, 'open'), open: () => void bell.dispatchEvent(new Event('open')) }
}

test('a job that two replicas begin at once is done by one, and by the other when the first is gone', async () => {
  const [begun, tried, finish, taken] = [gate(), gate(), gate(), gate()]
  const at = { one: 0, other: 0 }
  const one: Job = {
    name: 'sweep',
    every: 60_000,
    work: async () => {
      at.one++
      begun.open()
      await finish.opened
      return false
    },
  }
  const first = startJobs(db, silent, [one])
  await begun.opened
  let tries = 0
  const watched: typeof db = Object.create(db)
  watched.transaction = async (work, config) => {
    const result = await db.transaction(work, config)
    if (++tries === 3) tried.open()
    return result
  }
  const other: Job = {
    name: 'sweep',
    every: 1,
    work: async () => {
      at.other++
      taken.open()
      return false
    },
  }
  const second = startJobs(watched, silent, [other])
  await tried.opened
  expect(at).toEqual({ one: 1, other: 0 })
  finish.open()
  await first.stop()
  await taken.opened
  await second.stop()
})

test('a job of another name does not wait for it', async () => {
  const [both, finish] = [gate(), gate()]
  let begun = 0
  const named = (name: string): Job => ({
    name,
    every: 60_000,
    work: async () => {
      if (++begun === 2) both.open()
      await finish.opened
      return false
    },
  })
  const running = startJobs(db, silent, [named('here'), named('there')])
  await both.opened
  finish.open()
  await running.stop()
})

test('what a job did before it failed is undone; the fault is logged without what was typed, and the job is tried again', async () => {
  const lines: string[] = []
  const log = pino({ base: null }, { write: (line: string) => void lines.push(line) })
  const again = gate()
  let turns = 0
  const work: Job['work'] = async (tx) => {
    if (++turns > 1) again.open()
    else await tx.execute(sql`insert into firms (name, example) values ('Half a firm', false)`)
    if (turns === 1) await tx.execute(sql`select ${'a secret word'}::int`)
    return false
  }
  const running = startJobs(db, log, [{ name: 'fails', every: 1, work }])
  await again.opened
  await running.stop()
  expect(await db.execute(sql`select name from firms`)).toHaveLength(0)
  expect(lines).toHaveLength(1)
  expect(JSON.parse(lines[0] ?? '')).toMatchObject({ level: 50, job: 'fails', code: '22P02', msg: 'job failed' })
  expect(lines[0]).not.toContain('secret')
})

test('goes on at once while more is left, and stop waits for the slice at hand and begins no other', async () => {
  const [third, finish] = [gate(), gate()]
  let begun = 0
  let ended = 0
  const work: Job['work'] = async () => {
    if (++begun === 3) {
      third.open()
      await finish.opened
    }
    ended++
    return true
  }
  const running = startJobs(db, silent, [{ name: 'long', every: 60_000, work }])
  await third.opened
  const stopped = running.stop()
  finish.open()
  await stopped
  expect({ begun, ended }).toEqual({ begun: 3, ended: 3 })
})
