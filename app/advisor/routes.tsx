// The two pages that need no account: how many to test, and what a sample proved. The address holds the question.
import { Hono } from 'hono'
import { AdvisorPage } from '../../views/advisor/page.tsx'
import { ProofPage } from '../../views/advisor/proof.tsx'
import { askedAgain } from '../http/caching.ts'
import type { Env } from '../http/env.ts'
import { ask } from './ask.ts'
import { compareWays } from './compare.ts'
import { curvesOf } from './curve.ts'
import { proofFields, proofQuestionFrom } from './proof-question.ts'
import { prove } from './prove.ts'
import { questionFields, questionFrom } from './question.ts'

export const advisorRoutes = new Hono<Env>()

advisorRoutes.get('/', askedAgain, (c) => {
  const frame = { reader: c.var.person, firm: c.var.firm }
  const asked = ask(c, questionFields, questionFrom)
  if (asked.kind !== 'question') return c.html(<AdvisorPage {...frame} {...asked} />, asked.kind === 'none' ? 200 : 422)
  const comparison = compareWays(asked.question)
  const advice = { question: asked.question, comparison, curves: curvesOf(asked.question, comparison) }
  return c.html(<AdvisorPage {...frame} asked={asked.asked} advice={advice} />)
})

advisorRoutes.get('/proof', askedAgain, (c) => {
  const frame = { reader: c.var.person, firm: c.var.firm }
  const asked = ask(c, proofFields, proofQuestionFrom)
  if (asked.kind !== 'question') return c.html(<ProofPage {...frame} {...asked} />, asked.kind === 'none' ? 200 : 422)
  const answer = { question: asked.question, proof: prove(asked.question) }
  return c.html(<ProofPage {...frame} asked={asked.asked} answer={answer} />)
})
