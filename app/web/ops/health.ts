// Two questions for those who keep the service running: does the process live, and can it work?
import { Hono } from 'hono'
import type { Db } from '../../../db/client.ts'
import { unfitnessOf } from '../../../db/fitness.ts'
import type { Disk } from './disk.ts'

const PATIENCE = 2000

/** /healthz answers while the process lives; /readyz is 200 while the service can do all its work, else 503 with the reason. */
export function healthRoutes(database: () => Db | undefined, disk: Disk): Hono {
  const routes = new Hono()
  routes.get('/healthz', (c) => c.text('alive\n'))
  routes.get('/readyz', async (c) => {
    const db = database()
    const reason = db === undefined ? 'the database is being made ready' : await reasonAgainst(db, disk)
    return reason === undefined ? c.text('ready\n') : c.text(`not ready: ${reason}\n`, 503)
  })
  return routes
}

async function reasonAgainst(db: Db, disk: Disk): Promise<string | undefined> {
  const silent = 'the database does not answer'
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<string>((resolve) => {
    timer = setTimeout(resolve, PATIENCE, silent)
  })
  const reply = unfitnessOf(db)
    .then(
      async (unfit) => unfit?.sentence ?? ((await disk.isFull(db)) ? 'the disk of the database is full' : undefined),
    )
    .catch(() => silent)
  return Promise.race([reply, late]).finally(() => clearTimeout(timer))
}
