// What every answer carries against abuse, and what every change must prove.
import type { MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { HTTPException } from 'hono/http-exception'
import { secureHeaders } from 'hono/secure-headers'
import { timeout } from 'hono/timeout'
import type { Env } from './env.ts'

const self = ["'self'"]
const none = ["'none'"]

/** No inline script or style anywhere; nothing from another origin. Encryption is insisted on where people come by https. */
export function headers(https: boolean): MiddlewareHandler {
  return secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: none,
      scriptSrc: self,
      styleSrc: self,
      imgSrc: self,
      fontSrc: self,
      connectSrc: self,
      formAction: self,
      baseUri: none,
      frameAncestors: none,
    },
    // no-referrer would make browsers send `Origin: null` with every form, and the check below would refuse them all
    referrerPolicy: 'same-origin',
    strictTransportSecurity: https ? 'max-age=31536000' : false,
    xFrameOptions: 'DENY',
    permissionsPolicy: { camera: [], geolocation: [], microphone: [] },
  })
}

/**
 * A request that changes something must come from a page of ours: its Origin is the configured one or, where none is
 * configured, the very address that the request itself went to. A browser sends Origin with every POST.
 */
export function sameOrigin(origin: string | undefined): MiddlewareHandler<Env> {
  return async (c, next) => {
    if (c.req.method !== 'GET' && c.req.method !== 'HEAD') {
      const own = origin ?? `http://${c.req.header('host') ?? ''}`
      if (c.req.header('origin') !== own) throw new HTTPException(403, { message: foreign })
    }
    await next()
  }
}

const foreign =
  'This form did not come from a page of this service. Open the page again at its usual address; the administrator can set ORIGIN to that address.'

/** A network that stalls would hold a request for ever: postgres.js has no deadline of its own. */
export const deadline: MiddlewareHandler = timeout(60_000, late)

export function late(): HTTPException {
  const message = 'The answer took too long. Look whether it was done; the same form sent twice is carried out once.'
  return new HTTPException(503, { message })
}

/** In bytes: of every form but one. */
export const SMALL = 256 * 1024
/** Of the form that sends a results file: some 300,000 cords. */
export const FILE = 16 * 1024 * 1024

/** That one form is read as it arrives, by app/web/http/parts.ts, which counts it there. */
export const limitBody: MiddlewareHandler<Env> = (c, next) => (takesFile(c.req.path) ? next() : limitSmall(c, next))

function takesFile(path: string): boolean {
  return /^\/lots\/\d+\/file$/.test(path)
}

const limitSmall = bodyLimit({
  maxSize: SMALL,
  onError: () => {
    throw tooLarge()
  },
})

export function tooLarge(): HTTPException {
  return new HTTPException(413, { message: 'That is more than can be taken at once: send it in parts' })
}
