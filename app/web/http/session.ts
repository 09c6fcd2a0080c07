// Who is reading: the session's cookie, and the pages that need one.
import type { Context, MiddlewareHandler } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { arrivalOf } from '../../people/sessions/arrival.ts'
import type { Person } from '../../terms/person.ts'
import type { Env } from './env.ts'
import { renderUnfit } from './errors.tsx'

const OWN_PASSWORD = '/people/password'

/** Puts the reader and the firm into the context of every request, and stops one that this process must not carry out. */
export function session(separateDuties: boolean): MiddlewareHandler<Env> {
  return async (c, next) => {
    const { firm, unfit, person, passwordTemporary } = await arrivalOf(c.var.db, tokenOf(c), separateDuties)
    const reads = c.req.method === 'GET' || c.req.method === 'HEAD'
    if (unfit && !(unfit.readable && reads)) return renderUnfit(c, unfit.sentence)
    c.set('firm', firm)
    c.set('person', person)
    c.set('passwordTemporary', passwordTemporary)
    return next()
  }
}

/**
 * Leads a reader who is not signed in to the sign-in page, which leads back, and one with a manager's password to the page
 * where one of their own is chosen.
 */
export const signedInOnly: MiddlewareHandler<Env> = async (c, next) => {
  if (c.var.passwordTemporary && c.req.path !== OWN_PASSWORD) return c.redirect(OWN_PASSWORD, 303)
  if (c.var.person) return next()
  const back = c.req.method === 'GET' ? `?back=${encodeURIComponent(pathOf(c))}` : ''
  return c.redirect(`/sign-in${back}`, 303)
}

/** Who is signed in, on a page that only such a person reaches. */
export function viewerOf(c: Context<Env>): Person {
  if (!c.var.person) throw new Error(`${c.req.path} is mounted without a sign-in`)
  return c.var.person
}

export function giveCookie(c: Context<Env>, token: string): void {
  setCookie(c, cookieName(c), token, { path: '/', httpOnly: true, sameSite: 'Strict', secure: c.var.https })
}

/** The token of the reader's session. */
export function tokenOf(c: Context<Env>): string | undefined {
  return getCookie(c, cookieName(c))
}

/** Takes the cookie back and returns the token that it held. */
export function takeCookie(c: Context<Env>): string | undefined {
  return deleteCookie(c, cookieName(c), { path: '/', secure: c.var.https })
}

/** Browsers take the __Host- prefix only over https, and then bind the cookie to this very host. */
function cookieName(c: Context<Env>): string {
  return c.var.https ? '__Host-cordsift' : 'cordsift'
}

function pathOf(c: Context<Env>): string {
  const { pathname, search } = new URL(c.req.url)
  return pathname + search
}
