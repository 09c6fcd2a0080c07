// The two pages that need no account: how many to test, and what a sample proved. The address holds the question.
import { Hono } from 'hono'
import { AdvisorPage } from '../../views/advisor/advisor-page.tsx'
import { ProofPage } from '../../views/advisor/proof-page.tsx'
import { leastSensible } from '../advisor/least-sensible.ts'
import { exampleProof, proofFields, proofQuestionFrom } from '../advisor/proof-question.ts'
import { exampleQuestion, questionFields, questionFrom } from '../advisor/question.ts'
import { compareTask, proveTask, provingTakesLong } from '../advisor/tasks.ts'
import { runHere } from '../kit/task.ts'
import { ask } from './forms/ask.ts'
import { askedAgain } from './http/caching.ts'
import type { Env } from './http/env.ts'
import { runFor } from './http/work.ts'

export const advisorRoutes = new Hono<Env>()

advisorRoutes.get('/', askedAgain, async (c) => {
  const frame = { viewer: c.var.person, firm: c.var.firm, currency: c.var.currency }
  const asked = ask(c, questionFields, questionFrom, exampleQuestion)
  if (asked.kind === 'problems') return c.html(<AdvisorPage {...frame} {...asked} />, 422)
  const { question, example } = asked
  const compared = await runFor(c)(compareTask, question)
  const advice = { question, ...compared, leastSensible: leastSensible(question) }
  return c.html(<AdvisorPage {...frame} asked={asked.asked} example={example} advice={advice} />)
})

advisorRoutes.get('/proof', askedAgain, async (c) => {
  const frame = { viewer: c.var.person, firm: c.var.firm }
  const asked = ask(c, proofFields, proofQuestionFrom, exampleProof)
  if (asked.kind === 'problems') return c.html(<ProofPage {...frame} {...asked} />, 422)
  const { question } = asked
  // A small lot's question takes less than to hand it to another thread.
  const run = provingTakesLong(question) ? runFor(c) : runHere
  const answer = { question, proof: await run(proveTask, question) }
  return c.html(<ProofPage {...frame} asked={asked.asked} example={asked.example} answer={answer} />)
})
