// The audit's page, for everybody who is signed in.
import { Hono } from 'hono'
import { z } from 'zod'
import { AuditPage } from '../../views/audit/audit-page.tsx'
import { auditOf, LINES_A_PAGE } from '../audit/list.ts'
import { optionalText, wholeNumber } from '../kit/fields.ts'
import type { Env } from './http/env.ts'
import { readQuery } from './http/read.ts'
import { viewerOf } from './http/session.ts'

export const auditRoutes = new Hono<Env>()

const question = z.object({
  about: optionalText(80),
  before: wholeNumber({ from: 1, to: Number.MAX_SAFE_INTEGER }, 'There is no such line').optional(),
})

auditRoutes.get('/', async (c) => {
  const asked = readQuery(c, question)
  const frame = { viewer: viewerOf(c), firm: c.var.firm }
  if (asked.kind === 'unreadable')
    return c.html(<AuditPage {...frame} about="" lines={[]} problems={asked.problems} />, 422)
  const { about, before } = asked.value
  const lines = await auditOf(c.var.db, { subject: about === '' ? undefined : about, before })
  const older = lines.length === LINES_A_PAGE ? lines.at(-1)?.id : undefined
  return c.html(<AuditPage {...frame} about={about} lines={lines} older={older} />)
})
