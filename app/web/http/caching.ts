// What a browser may keep: nothing, but for the open pages, which it asks about each time, and the assets, named by content.
import type { MiddlewareHandler } from 'hono'
import { etag } from 'hono/etag'
import type { Env } from './env.ts'

/** Before everything: an answer that says nothing else is kept by nobody; addresses may hold a key, pages a record. */
export const keptByNobody: MiddlewareHandler<Env> = async (c, next) => {
  c.header('Cache-Control', 'no-store')
  await next()
}

/** For a page that is the same for everybody who is not signed in: kept, and asked about before it is shown again. */
export const askedAgain: MiddlewareHandler<Env> = async (c, next) => {
  if (c.var.person) return next()
  await unchanged(c, next)
  c.header('Cache-Control', 'no-cache')
  c.header('Vary', 'Cookie, Accept-Encoding')
}

/** Weak: the same page is sent compressed or plain. */
const unchanged = etag({ weak: true })
