// Runs the service: listens at once, makes the database ready, tells the console where to go, drains on a signal.
import type { Server } from 'node:http'
import type { Db } from '../db/client.ts'
import { type Database, openDatabase } from '../db/connect.ts'
import { setTimeZone } from '../views/figures.ts'
import { sentenceOf } from '../views/words/refusals.ts'
import { openCompute } from './compute/compute.ts'
import { sharedBy } from './compute/shared.ts'
import { openThreads, spareThreads } from './compute/threads.ts'
import type { Config } from './config.ts'
import { jobs } from './jobs/jobs.ts'
import { type RunningJobs, startJobs } from './jobs/run.ts'
import { Refusal } from './kit/refusal.ts'
import type { Example } from './web/http/env.ts'
import { missingOrigin } from './web/http/hosts.ts'
import { listener } from './web/http/listener.ts'
import { openLog } from './web/ops/log.ts'
import { surviveUncaught } from './web/ops/uncaught.ts'
import { createApp } from './web/server.ts'

export type Occasion = {
  /** the demonstration's: its people are signed in by a button, and sign with this password */
  demo: { password: string } | undefined
  /** `setUp` works as the owner of the database: the service's own login plants no example */
  example: Omit<Example, 'setUp'> & { setUp: (owner: Db, ...given: Parameters<Example['setUp']>) => Promise<string> }
  /** what to do with the database before it is shown; returns lines for the console */
  prepare: (database: Database, address: string) => Promise<string[]>
  /** after the last request, when the database is closed */
  afterwards: () => void
}

const LONGEST_REQUEST = 10_000

/** Returns when the service is ready. From then on it lives until a signal, SIGTERM or Ctrl-C; without its database it answers 503. */
export async function run(config: Config, occasion: Occasion): Promise<void> {
  const log = openLog(config.logLevel)
  setTimeZone(config.timeZone)
  let database: Database | undefined
  let background: RunningJobs | undefined
  let ready = false
  const example: Example = {
    names: occasion.example.names,
    async setUp(...given) {
      if (!database) throw new Error('the database is not open yet')
      return database.asOwner((owner) => occasion.example.setUp(owner, ...given))
    },
  }
  const compute = openCompute(openThreads(spareThreads))
  const forAll = openThreads(1)
  const settings = { ...config, ...occasion, example, log, compute, forAll: sharedBy(forAll) }
  const app = createApp({ ...settings, database: () => (ready ? database?.db : undefined) })
  const server = await listener(app.fetch, config.origin?.startsWith('https:') ?? false)
  endOnSignal(server, async () => {
    await background?.stop()
    await compute.end()
    await forAll.end()
    await database?.close() // still starting: PostgreSQL's guard sees us go
    occasion.afterwards()
  })
  const address = await listen(server, config)
  const missing = missingOrigin(config)
  for (const line of [config.notice, missing]) if (line !== undefined) say(line)
  database = await openDatabase(config.place, {
    onRestart: () => log.warn('PostgreSQL ended under the service and was started again'),
    onStillDown: (error) => log.fatal({ error: error.message }, 'PostgreSQL ended under the service; trying again'),
  })
  surviveUncaught(log, database.renew)
  const lines = await occasion.prepare(database, config.origin ?? address)
  ready = true
  background = startJobs(database.db, log, jobs)
  say(...lines)
}

/** SIGTERM or Ctrl-C: no new requests, the begun ones are finished, then `close`, then the process ends. */
function endOnSignal(server: Server, close: () => Promise<void>): void {
  let since: number | undefined
  const drain = async (signal: NodeJS.Signals) => {
    if (since !== undefined) {
      // Ctrl-C comes twice at once, from the terminal and from npm; only a person asks again later
      if (Date.now() - since > 1000) process.exit(1)
      return
    }
    since = Date.now()
    say(`${signal}: finishing what was begun`)
    const ended = new Promise((resolve) => server.close(resolve))
    const idle = setInterval(() => server.closeIdleConnections(), 20) // a browser keeps its connection after the answer
    const late = setTimeout(() => server.closeAllConnections(), LONGEST_REQUEST)
    await ended
    clearInterval(idle)
    clearTimeout(late)
    await close()
    say('Closed')
    process.exit(0)
  }
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.on(signal, () => drain(signal).catch(endBadly))
}

/** Nothing waits any more, and nothing is half done: what was not answered was not told to be done. */
function endBadly(error: unknown): never {
  sayWhy(error)
  process.exit(1)
}

/** Lines for the console. The log has standard output to itself. */
export function say(...lines: string[]): void {
  process.stderr.write(`${lines.join('\n')}\n`)
}

/** The sentence of an error that kept the service from starting; its cause where there is one. */
export function sayWhy(error: unknown): void {
  say(error instanceof Refusal ? sentenceOf(error) : error instanceof Error ? error.message : String(error))
  if (error instanceof Error && error.cause instanceof Error) say(error.cause.message)
}

/** Returns the address that a browser opens. */
function listen(server: Server, { host, port }: Config): Promise<string> {
  return new Promise((resolve, reject) => {
    server.once('error', (error) =>
      reject(new Error(`HOST=${host} PORT=${port} cannot be listened on: ${error.message}`)),
    )
    server.listen(port, host, () => {
      const bound = server.address()
      const number = typeof bound === 'object' && bound !== null ? bound.port : port
      resolve(`http://${host.includes(':') ? `[${host}]` : host}:${number}`)
    })
  })
}
