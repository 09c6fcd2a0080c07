// After an act: on to the next page, which says once, in one line, that it was done.
import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { z } from 'zod'
import { countedDone, type Done, plainDone } from '../../terms/done.ts'
import type { Env } from './env.ts'

const name = 'cordsift-done'

const done: z.ZodType<Done> = z.union([
  z.object({ code: z.enum(plainDone) }),
  z.object({ code: z.enum(countedDone), count: z.int().nonnegative() }),
])

/** Leads on to a page of ours. The line travels in a cookie that only this browser sends and that the next page takes away. */
export function seeDone(c: Context<Env>, path: string, line: Done): Response {
  setCookie(c, name, encodeURIComponent(JSON.stringify(line)), {
    path: '/',
    httpOnly: true,
    sameSite: 'Strict',
    secure: c.var.https,
    maxAge: 60,
  })
  return c.redirect(path, 303)
}

/** The line that the page before left, shown once. What is not one of ours is passed over: it only says what was done. */
export function takeDone(c: Context<Env>): Done | undefined {
  const text = getCookie(c, name)
  if (text === undefined) return undefined
  deleteCookie(c, name, { path: '/', secure: c.var.https })
  return done.safeParse(readable(text)).data
}

function readable(text: string): unknown {
  try {
    return JSON.parse(decodeURIComponent(text))
  } catch {
    return undefined
  }
}
