// Under which names the service answers: a page elsewhere whose name was bent to this machine must not reach it.
import type { MiddlewareHandler } from 'hono'
import { HTTPException } from 'hono/http-exception'
import { loopback } from '../../kit/host.ts'
import type { Env } from './env.ts'

/** Without ORIGIN only this machine's own names are answered; any other gets 421 with the line that sets it. */
export function knownHosts(origin: string | undefined): MiddlewareHandler<Env> {
  return async (c, next) => {
    const host = c.req.header('host')
    if (origin === undefined && !loopback(host)) throw new HTTPException(421, { message: unknownHost(host) })
    await next()
  }
}

/** What to set where people come by a name; undefined where nothing is missing. */
export function missingOrigin({ host, port, origin }: { host: string; port: number; origin: string | undefined }) {
  if (origin !== undefined || loopback(host)) return undefined
  return `HOST=${host} is open to other machines, and without ORIGIN only 127.0.0.1 and localhost are answered: set ORIGIN to the address that people type, such as ORIGIN=http://${wildcard(host) ? 'this-machine' : host}:${port}`
}

function wildcard(host: string): boolean {
  return host === '0.0.0.0' || host === '::'
}

function unknownHost(host: string | undefined): string {
  const plain = host !== undefined && /^[\w.:[\]-]{1,255}$/.test(host) ? host : 'your-address'
  return `This service does not answer under that name. Its administrator can set the address that people type: ORIGIN=http://${plain}, or https where a proxy has the certificate.`
}
