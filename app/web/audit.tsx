// The audit's page, for everybody who is signed in.
import { Hono } from 'hono'
import { z } from 'zod'
import { AuditPage } from '../../views/audit/audit-page.tsx'
import { startOfDay } from '../../views/figures.ts'
import { type AuditWish, auditOf, LINES_A_PAGE } from '../audit/list.ts'
import { calendarDay, optionalText, wholeNumber } from '../kit/fields.ts'
import { peopleOf } from '../people/accounts/list.ts'
import type { Env } from './http/env.ts'
import { readQuery } from './http/read.ts'
import { viewerOf } from './http/session.ts'

export const auditRoutes = new Hono<Env>()

const day = z.union([z.literal(''), calendarDay('Choose a day from 1900 to 2999')]).default('')

/** `about` is the address of earlier versions: a subject such as lot/17. */
const question = z.object({
  about: optionalText(80),
  lot: z
    .union([
      z.literal(''),
      z
        .string()
        .trim()
        .regex(/^[1-9]\d{0,9}$/, { error: 'Type the number of a lot' }),
    ])
    .default(''),
  person: optionalText(200),
  act: optionalText(60),
  from: day,
  until: day,
  signins: z.enum(['yes', '']).default('').catch(''),
  before: wholeNumber({ from: 1, to: Number.MAX_SAFE_INTEGER }, 'There is no such entry').optional(),
})

auditRoutes.get('/', async (c) => {
  const asked = readQuery(c, question)
  const people = (await peopleOf(c.var.db)).map(({ name }) => name)
  const frame = { viewer: viewerOf(c), firm: c.var.firm, typed: asked.typed, people }
  if (asked.kind === 'unreadable') return c.html(<AuditPage {...frame} lines={[]} problems={asked.problems} />, 422)
  const lines = await auditOf(c.var.db, wishFrom(asked.value))
  const older = lines.length === LINES_A_PAGE ? lines.at(-1)?.id : undefined
  return c.html(<AuditPage {...frame} lines={lines} older={older} />)
})

/** Days are whole ones in the firm's time zone, the last included; one subject shows its sign-ins too. */
function wishFrom({ about, lot, person, act, from, until, signins, before }: z.infer<typeof question>): AuditWish {
  const subject = about || (lot && `lot/${lot}`)
  return {
    subject: subject || undefined,
    withParts: lot !== '',
    person: person || undefined,
    action: act || undefined,
    from: from === '' ? undefined : startOfDay(from),
    until: until === '' ? undefined : startOfDay(until, 1),
    signIns: signins === 'yes' ? true : subject ? undefined : false,
    before,
  }
}
