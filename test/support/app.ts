// The service as each person meets it, through app.request: no socket, but every middleware.
import type { Hono } from 'hono'
import type { Env } from '../../app/http/env.ts'
import { openLog } from '../../app/ops/log.ts'
import type { Person } from '../../app/people/person.ts'
import { openSessionFor } from '../../app/people/sign-in.ts'
import { createApp, type Settings } from '../../app/server.ts'
import type { Db } from '../../db/client.ts'

const ORIGIN = 'http://localhost'

export type Client = {
  get(path: string): Promise<Response>
  /** a form, as a page of ours would send it */
  post(path: string, form: Record<string, string | Blob>, headers?: Record<string, string>): Promise<Response>
}

export type TestApp = { app: Hono<Env>; anybody: Client; appAs(person: Person): Promise<Client> }

/** `settings` may differ where a test is about them. */
export function testApp(db: Db, settings: Partial<Settings> = {}): TestApp {
  const app = createApp({
    database: () => db,
    log: openLog('silent'),
    currency: 'EUR',
    separateDuties: true,
    origin: undefined,
    demo: undefined,
    example: { plant: async () => {}, names: ['Ida Invented'] },
    ...settings,
  })
  return {
    app,
    anybody: client(app, undefined),
    appAs: async (person) => client(app, `cordsift=${await openSessionFor(db, person)}`),
  }
}

function client(app: Hono<Env>, cookie: string | undefined): Client {
  const own: Record<string, string> = cookie === undefined ? {} : { cookie }
  return {
    get: async (path) => app.request(`${ORIGIN}${path}`, { headers: { host: 'localhost', ...own } }),
    post: async (path, form, headers = {}) => {
      return app.request(`${ORIGIN}${path}`, {
        method: 'POST',
        body: bodyOf(form),
        headers: { host: 'localhost', origin: ORIGIN, ...own, ...headers },
      })
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
