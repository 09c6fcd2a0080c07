// The one renderer of what went wrong: a refusal as its page, anything else as a fault with the request's number.
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Logger } from 'pino'
import { ProblemPage } from '../../views/problem.tsx'
import { Unanswered } from '../compute/compute.ts'
import { Refusal } from '../kit/refusal.ts'
import type { Env } from './env.ts'
import { faultOf } from './fault.ts'

const statusOf = { invalid: 422, forbidden: 403, missing: 404, conflict: 409 } as const

const titleOf = {
  invalid: 'That cannot be done as it stands',
  forbidden: 'That is another person’s to do',
  missing: 'There is no such page',
  conflict: 'The record has moved on',
} as const

/** For `app.onError`. */
export function renderError(error: unknown, c: Context<Env>, log: Logger): Response | Promise<Response> {
  if (error instanceof Refusal) return page(c, statusOf[error.kind], titleOf[error.kind], error.message)
  if (error instanceof HTTPException) return page(c, error.status, titleFor(error.status), error.message)
  if (error instanceof Unanswered) {
    c.header('Retry-After', '2')
    return page(c, error.status, 'Busy', error.message)
  }
  const fault = faultOf(error)
  log.error({ requestId: c.var.requestId, ...fault.forTheLog }, 'fault')
  switch (fault.kind) {
    case 'refused-by-the-record':
      return page(
        c,
        409,
        titleOf.conflict,
        'The record does not allow that any more. Nothing was changed: load the page again.',
      )
    case 'busy':
      c.header('Retry-After', '2')
      return page(
        c,
        503,
        'Busy',
        'The database did not answer in time. Try again: the same form sent twice is carried out once.',
      )
    case 'unknown':
      return page(
        c,
        500,
        'Something broke',
        'Nothing was half done. Try again, and if it breaks again, tell whoever keeps the service this number.',
      )
  }
}

export function renderMissing(c: Context<Env>): Response | Promise<Response> {
  return page(c, 404, titleOf.missing, 'Look for it from the list it belongs to.')
}

/** While the database is still being started or migrated. */
export function renderStarting(c: Context<Env>): Response | Promise<Response> {
  c.header('Retry-After', '2')
  return page(c, 503, 'Starting', 'The database is being made ready: load the page again in a moment.')
}

/** When this process must not work, or not change anything, on the database that it finds. */
export function renderUnfit(c: Context<Env>, sentence: string): Response | Promise<Response> {
  c.header('Retry-After', '10')
  return page(c, 503, 'Not by this service', sentence)
}

type Status = HTTPException['status']

function titleFor(status: Status): string {
  if (status === 503) return 'Busy'
  if (status === 405) return 'That is not how this address is asked'
  if (status === 421) return 'Not the address of this service'
  return status === 403 ? 'That form is not taken' : 'That could not be read'
}

function page(c: Context<Env>, status: Status, title: string, sentence: string): Response | Promise<Response> {
  const number = status >= 500 ? c.var.requestId : undefined
  return c.html(
    <ProblemPage reader={c.var.person} firm={c.var.firm} title={title} sentence={sentence} number={number} />,
    status,
  )
}
