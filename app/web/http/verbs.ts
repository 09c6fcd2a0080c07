// A known address asked with a verb that it does not have is told which ones it has.
import type { Hono, MiddlewareHandler } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Env } from './env.ts'

/** 405 with Allow, before anything else is looked at. What no verb has goes on, to the page for what is not there. */
export function knownVerbs(app: Hono<Env>): MiddlewareHandler<Env> {
  return async (c, next) => {
    const allowed = verbsAt(app, c.req.path)
    if (allowed.length > 0 && !allowed.includes(c.req.method)) {
      c.header('Allow', allowed.join(', '))
      throw new HTTPException(405, {
        message: 'This address is not asked in that way: go back and use the page’s own buttons.',
      })
    }
    await next()
  }
}

/** What runs for every verb is no answer of its own. */
function verbsAt(app: Hono<Env>, path: string): string[] {
  const answered = (verb: string) => app.router.match(verb, path)[0].some(([[, route]]) => route.method === verb)
  return ['GET', 'POST'].filter(answered).flatMap((verb) => (verb === 'GET' ? ['GET', 'HEAD'] : [verb]))
}
