// The one renderer of what went wrong: a refusal as its page, anything else as a fault with the request's number.
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Logger } from 'pino'
import { ProblemPage } from '../../../views/problem-page.tsx'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { unansweredWords } from '../../../views/words/unanswered.ts'
import { Unanswered } from '../../compute/compute.ts'
import { type Fault, faultOf } from '../../kit/fault.ts'
import { Refusal, Wait } from '../../kit/refusal.ts'
import type { Disk } from '../ops/disk.ts'
import type { Env } from './env.ts'
import { tellRefused } from './refused.ts'

const statusOf = { invalid: 422, forbidden: 403, missing: 404, conflict: 409, wait: 429 } as const

const titleOf = {
  invalid: 'That cannot be done as it stands',
  forbidden: 'You don’t have access',
  missing: 'There is no such page',
  conflict: 'That cannot be done now',
  wait: 'Not yet',
} as const

type Status = HTTPException['status']
type FaultPage = { status: Status; title: string; sentence: string; retryAfter?: string }

const again = 'the same form sent twice is carried out once.'

const faultPages: Record<Fault['kind'], FaultPage> = {
  'refused-by-the-record': {
    status: 409,
    title: titleOf.conflict,
    sentence: 'The record does not allow that any more. Nothing was changed: load the page again.',
  },
  busy: {
    status: 503,
    title: 'Busy',
    sentence: `The database did not answer in time. Try again: ${again}`,
    retryAfter: '2',
  },
  full: {
    status: 507,
    title: 'The disk is full',
    sentence: `The database has no room left on its disk, so nothing was changed. Send it again once the administrator has made room: ${again}`,
  },
  'short-of-memory': {
    status: 503,
    title: 'Short of memory',
    sentence: `The database had not enough memory for that, so nothing was changed. Try again in a moment: ${again}`,
    retryAfter: '10',
  },
  unknown: {
    status: 500,
    title: 'Something broke',
    sentence: 'Nothing was half done. Try again, and if it breaks again, tell the administrator this number.',
  },
}

/** For `app.onError`. */
export async function renderError(error: unknown, c: Context<Env>, log: Logger, disk: Disk): Promise<Response> {
  await tellRefused(error, c, log)
  if (error instanceof Wait) c.header('Retry-After', String(error.seconds))
  if (error instanceof Refusal) return page(c, statusOf[error.kind], titleFrom(error), sentenceOf(error))
  if (error instanceof HTTPException) return page(c, error.status, titleFor(error.status), error.message)
  if (error instanceof Unanswered) {
    c.header('Retry-After', '2')
    return page(c, error.status, 'Busy', unansweredWords[error.why])
  }
  const fault = faultOf(error)
  log.error({ requestId: c.var.requestId, ...fault.forTheLog }, 'fault')
  if (fault.kind === 'full') disk.refused()
  const { status, title, sentence, retryAfter } = faultPages[fault.kind]
  if (retryAfter !== undefined) c.header('Retry-After', retryAfter)
  return page(c, status, title, sentence)
}

export function renderMissing(c: Context<Env>): Response | Promise<Response> {
  return page(c, 404, titleOf.missing, 'There is nothing at this address.')
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

/** What was seen by the reader and has changed since. */
const stale: readonly string[] = ['lot/changed-since', 'series/moved-on']

function titleFrom({ kind, code }: Refusal): string {
  return stale.includes(code) ? 'This page is out of date' : titleOf[kind]
}

function titleFor(status: Status): string {
  if (status === 503) return 'Busy'
  if (status === 405) return 'That is not how this address is asked'
  if (status === 421) return 'Not the address of this service'
  return status === 403 ? 'That form is not taken' : 'That could not be read'
}

function page(c: Context<Env>, status: Status, title: string, sentence: string): Response | Promise<Response> {
  const number = status >= 500 ? c.var.requestId : undefined
  return c.html(
    <ProblemPage
      viewer={c.var.person}
      firm={c.var.firm}
      title={title}
      sentence={sentence}
      number={number}
      wayOn={status < 500 ? wayOnFrom(c, status) : undefined}
    />,
    status,
  )
}

/** Where one can go on from here: the lot that the address is about, if it is there, the list, or the first page. */
function wayOnFrom(c: Context<Env>, status: Status): { href: string; words: string } {
  const [, lot] = /^\/lots\/(\d{1,9})(?:\/.+|$)/.exec(c.req.path) ?? []
  if (!c.var.person) return { href: '/', words: 'How many cords to test' }
  if (lot !== undefined && status !== 404 && c.req.path !== `/lots/${lot}`)
    return { href: `/lots/${lot}`, words: `Lot ${lot}` }
  return { href: '/lots', words: 'Lots' }
}
