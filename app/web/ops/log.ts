// The service's log: one JSON object a line on standard output, without secrets.
import { randomUUID } from 'node:crypto'
import type { MiddlewareHandler } from 'hono'
import { routePath } from 'hono/route'
import pino, { type Logger } from 'pino'
import type { Env } from '../http/env.ts'

export type Level = 'debug' | 'info' | 'warn' | 'error' | 'silent'

export function openLog(level: Level): Logger {
  return pino({
    level,
    base: null,
    timestamp: pino.stdTimeFunctions.isoTime,
    redact: ['password', '*.password', 'token', '*.token'],
  })
}

/**
 * Gives each request its number and writes one line when it is answered. The line names the route's pattern, not the
 * address: an address can hold a set-up key, and a name typed into a form.
 */
export function logRequests(log: Logger): MiddlewareHandler<Env> {
  return async (c, next) => {
    const requestId = randomUUID()
    c.set('requestId', requestId)
    c.header('X-Request-Id', requestId)
    const begun = performance.now()
    await next()
    const milliseconds = Math.round(performance.now() - begun)
    const { status } = c.res
    const route = routePath(c)
    const line = { requestId, method: c.req.method, route, status, milliseconds, person: c.var.person?.id }
    log[levelOf(route, status)](line, 'answered')
  }
}

/** A probe asks every few seconds, and is told 503 while the service starts: that is no news and no fault. */
function levelOf(route: string, status: number): 'debug' | 'info' | 'warn' | 'error' {
  if (route === '/healthz' || route === '/readyz') return 'debug'
  if (status === 503) return 'warn'
  return status >= 500 ? 'error' : 'info'
}
