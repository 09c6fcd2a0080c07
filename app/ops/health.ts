// Two questions for whoever keeps the service running: does the process live, and can it work?
import { Hono } from 'hono'
import type { Db } from '../../db/client.ts'
import { answers } from '../../db/connect.ts'

const PATIENCE = 2000

/** /healthz answers while the process lives; /readyz is 200 once the database is migrated, and while it answers. */
export function healthRoutes(database: () => Db | undefined): Hono {
  const routes = new Hono()
  routes.get('/healthz', (c) => c.text('alive\n'))
  routes.get('/readyz', async (c) => {
    const db = database()
    const ready = db !== undefined && (await answers(db, PATIENCE))
    return ready ? c.text('ready\n') : c.text('not ready\n', 503)
  })
  return routes
}
