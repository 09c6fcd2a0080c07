// The page that advises for one lot.
import { type Context, Hono } from 'hono'
import { AdvicePage } from '../../views/advice/advice-page.tsx'
import { mayDo } from '../../views/lots/may.ts'
import { adviceFor } from '../advice/advise.ts'
import { adviceFields, unasked } from './forms/advice.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, readQuery } from './http/read.ts'
import { runFor } from './http/work.ts'

export const adviceRoutes = new Hono<Env>()

adviceRoutes.get('/:lot/advice', async (c) => {
  const lotId = readId(c, 'lot')
  const asked = { ...unasked, ...said(c) }
  const question = readQuery(c, adviceFields)
  const page = { ...frameOf(c), lotId, asked }
  if (question.kind === 'unreadable')
    return c.html(<AdvicePage {...page} choosing={false} problems={question.problems} />, 422)
  const advice = await adviceFor(c.var.db, runFor(c), lotId, question.value)
  const choosing = mayDo('plan', { lot: advice.lot, roles: page.roles })
  return c.html(<AdvicePage {...page} advice={advice} choosing={choosing} />)
})

function said(c: Context<Env>): Record<string, string> {
  return c.req.query()
}
