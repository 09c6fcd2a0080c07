// The service as each person meets it, through app.request: no socket, but every middleware.
import type { Hono } from 'hono'
import { openCompute, type Threads } from '../../app/compute/compute.ts'
import { sharedBy } from '../../app/compute/shared.ts'
import { openSessionFor } from '../../app/people/sessions/sign-in.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Env } from '../../app/web/http/env.ts'
import { openLog } from '../../app/web/ops/log.ts'
import { createApp, type Settings } from '../../app/web/server.ts'
import type { Db } from '../../db/client.ts'

/** Does tasks in the test's own thread, through the same interface: copies go in and out as they would between threads. */
const threadsHere: Threads = {
  most: 4,
  run: async (task, input) => structuredClone(task.work(structuredClone(input))),
  end: async () => {},
}

const ORIGIN = 'http://localhost'

export type Client = {
  get(path: string): Promise<Response>
  /** a form, as a page of ours would send it */
  post(path: string, form: Record<string, string | Blob>, headers?: Record<string, string>): Promise<Response>
}

export type TestApp = {
  app: Hono<Env>
  anybody: Client
  /** nobody who is signed in, at this address */
  from(address: string): Client
  appAs(person: Person): Promise<Client>
}

/** `settings` may differ where a test is about them. */
export function testApp(db: Db, settings: Partial<Settings> = {}): TestApp {
  const app = createApp({
    database: () => db,
    log: openLog('silent'),
    compute: openCompute(threadsHere),
    forAll: sharedBy(threadsHere),
    currency: 'EUR',
    separateDuties: true,
    origin: undefined,
    trustedProxies: [],
    demo: undefined,
    example: { setUp: async () => 'no example', names: ['Ida Invented'] },
    ...settings,
  })
  return {
    app,
    anybody: client(app, undefined),
    from: (address) => client(app, undefined, { incoming: { socket: { remoteAddress: address } } }),
    appAs: async (person) => client(app, `cordsift=${await openSessionFor(db, person)}`),
  }
}

/** `connection`: as the server hands it over; without one there is no address. */
function client(app: Hono<Env>, cookie: string | undefined, connection = {}): Client {
  const own: Record<string, string> = cookie === undefined ? {} : { cookie }
  return {
    get: async (path) => app.request(`${ORIGIN}${path}`, { headers: { host: 'localhost', ...own } }, connection),
    post: async (path, form, headers = {}) => {
      const all = { host: 'localhost', origin: ORIGIN, ...own, ...headers }
      return app.request(`${ORIGIN}${path}`, { method: 'POST', body: bodyOf(form), headers: all }, connection)
    },
  }
}

/** As a browser encodes it: a form with a file differs from one without. */
function bodyOf(form: Record<string, string | Blob>): URLSearchParams | FormData {
  const fields = Object.entries(form)
  const body = fields.some(([, value]) => typeof value !== 'string') ? new FormData() : new URLSearchParams()
  for (const [name, value] of fields)
    if (body instanceof FormData) body.append(name, value)
    else if (typeof value === 'string') body.append(name, value)
  return body
}
