// The whole service as one application: what every request passes, then one list of mounted routes.
import { Hono } from 'hono'
import type { Logger } from 'pino'
import type { Db } from '../../db/client.ts'
import type { Compute } from '../compute/compute.ts'
import type { Run } from '../kit/task.ts'
import { advisorRoutes } from './advisor.tsx'
import { auditRoutes } from './audit.tsx'
import { entryRoutes } from './entry.tsx'
import { assetRoutes } from './http/assets.ts'
import { keptByNobody } from './http/caching.ts'
import { compressed } from './http/compression.ts'
import type { Env, Example } from './http/env.ts'
import { renderError, renderMissing, renderStarting } from './http/errors.tsx'
import { knownHosts } from './http/hosts.ts'
import { network } from './http/network.ts'
import { deadline, headers, limitBody, sameOrigin } from './http/security.ts'
import { session, signedInOnly } from './http/session.ts'
import { knownVerbs } from './http/verbs.ts'
import { itemRoutes } from './items.tsx'
import { lotRoutes } from './lots.tsx'
import { watchDisk } from './ops/disk.ts'
import { healthRoutes } from './ops/health.ts'
import { logRequests } from './ops/log.ts'
import { peopleRoutes } from './people.tsx'
import { reportRoutes } from './percentage.tsx'
import { supplierRoutes } from './suppliers.tsx'

export type Settings = {
  /** undefined until the database is migrated and open */
  database: () => Db | undefined
  log: Logger
  compute: Compute
  forAll: Run
  currency: string
  separateDuties: boolean
  /** where people reach the service, such as https://cordsift.example; undefined: at whatever address they typed */
  origin: string | undefined
  /** addresses and ranges of our own proxies */
  trustedProxies: readonly string[]
  demo: { password: string } | undefined
  example: Example
}

/** `open`: no account needed. */
type Mounted = { at: string; routes: Hono<Env>; open?: true }

const mounted: Mounted[] = [
  { at: '/', routes: advisorRoutes, open: true },
  { at: '/', routes: entryRoutes, open: true },
  { at: '/people', routes: peopleRoutes },
  { at: '/items', routes: itemRoutes },
  { at: '/lots', routes: lotRoutes },
  { at: '/suppliers', routes: supplierRoutes },
  { at: '/percentage', routes: reportRoutes },
  { at: '/audit', routes: auditRoutes },
]

export function createApp(settings: Settings): Hono<Env> {
  const app = new Hono<Env>()
  const https = settings.origin?.startsWith('https:') ?? false
  const disk = watchDisk()
  app.onError((error, c) => renderError(error, c, settings.log, disk))
  app.notFound(renderMissing)
  app.use(
    logRequests(settings.log),
    headers(https),
    keptByNobody,
    network(settings.trustedProxies),
    compressed,
    knownVerbs(app),
  )
  app.route('/', healthRoutes(settings.database, disk))
  app.route('/', assetRoutes)
  app.use(knownHosts(settings.origin))
  app.use(async (c, next) => {
    const db = settings.database()
    if (!db) return renderStarting(c)
    c.set('db', db)
    c.set('currency', settings.currency)
    c.set('compute', settings.compute)
    c.set('forAll', settings.forAll)
    c.set('https', https)
    c.set('demo', settings.demo)
    c.set('example', settings.example)
    return next()
  })
  app.use(deadline, sameOrigin(settings.origin), session(settings.separateDuties), limitBody)
  for (const { at, routes, open } of mounted) {
    if (!open) app.use(`${at}/*`, signedInOnly)
    app.route(at, routes)
  }
  return app
}
