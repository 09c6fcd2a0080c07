// The page of a lot's plan: one recommendation for the lot in hand, and the freezing of one way.
import { type Context, Hono } from 'hono'
import { mayDo } from '../../views/lots/may.ts'
import { type Choosing, hindranceOf } from '../../views/plan/freeze.tsx'
import { PlanPage } from '../../views/plan/plan-page.tsx'
import { ReviewPage } from '../../views/plan/review-page.tsx'
import { sentencesOf } from '../../views/words/refusals.ts'
import { adviceFor } from '../advice/advise.ts'
import type { Problems, Typed } from '../kit/problems.ts'
import { because } from '../kit/refusal.ts'
import { chooseRule } from '../lots/acts/choose-rule.ts'
import { freezePlan } from '../lots/acts/freeze-plan.ts'
import { adviceFields, unasked } from './forms/advice.ts'
import { planForm, ruleForm } from './forms/lots.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, readQuery, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'
import { runFor } from './http/work.ts'

export const planRoutes = new Hono<Env>()

planRoutes.get('/:lot/plan', async (c) => {
  const lotId = readId(c, 'lot')
  const asked = { ...unasked, ...c.req.query() }
  const question = readQuery(c, adviceFields)
  if (question.kind === 'unreadable')
    return c.html(
      <PlanPage {...frameOf(c)} lotId={lotId} asked={asked} choosing="nothing" problems={question.problems} />,
      422,
    )
  const page = await pageFor(c, lotId, question.value)
  const problems = ownOutside(question.value.own, page.advice.lot.size)
  return c.html(<PlanPage {...page} asked={asked} problems={problems} />, problems ? 422 : 200)
})

/** Where the advice stood before plan and advice were one page. */
planRoutes.get('/:lot/advice', (c) => {
  const { search } = new URL(c.req.url)
  return c.redirect(`/lots/${readId(c, 'lot')}/plan${search}`, 301)
})

/** What freezing, or choosing as a rule, will do; nothing is done yet. */
planRoutes.get('/:lot/plan/review', async (c) => c.html(await reviewPage(c, c.req.query('kind'))))

planRoutes.post('/:lot/plan', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, planForm, (form) => freezePlan(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}`, { code: 'plan-frozen' })
  return c.html(await reviewPage(c, done.typed.kind, done), done.status)
})

planRoutes.post('/:lot/rule', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, ruleForm, (form) => chooseRule(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}/plan`, { code: 'rule-chosen' })
  return c.html(await reviewPage(c, done.typed.kind, done), done.status)
})

type Refused = { problems: Problems; typed: Typed }

/** The chosen way among those of the question in the address; the ways themselves where none is chosen. */
async function reviewPage(c: Context<Env>, kind: string | undefined, refused?: Refused) {
  const question = readQuery(c, adviceFields)
  const usual = question.kind === 'unreadable'
  const page = await pageFor(c, readId(c, 'lot'), usual ? adviceFields.parse({}) : question.value)
  const asked = { ...unasked, ...(usual ? {} : askedIn(c)) }
  const { advice, choosing } = page
  const way = advice.alternatives.find((each) => each.kind === kind)
  if (!way || choosing === 'nothing' || hindranceOf(way, advice, choosing))
    return (
      <PlanPage {...page} asked={asked} problems={refused?.problems ?? { form: 'Choose a plan that can be frozen.' }} />
    )
  return (
    <ReviewPage {...page} {...refused} way={way} choosing={choosing} asked={new URLSearchParams(asked).toString()} />
  )
}

function askedIn(c: Context<Env>) {
  const said = c.req.query()
  return Object.fromEntries(Object.entries(said).filter(([name]) => name in unasked))
}

async function pageFor(c: Context<Env>, lotId: number, question: Parameters<typeof adviceFor>[3]) {
  const frame = frameOf(c)
  const advice = await adviceFor(c.var.db, runFor(c), lotId, question)
  const who = { lot: advice.lot, roles: frame.roles }
  const choosing: Choosing = mayDo('plan', who) ? 'plan' : mayDo('choose-rule', who) ? 'rule' : 'nothing'
  return { ...frame, lotId, advice, choosing }
}

/** Only with the lot at hand it is known whether a named plan fits into it. */
function ownOutside(own: Parameters<typeof adviceFor>[3]['own'], lotSize: number) {
  return own && own.sampleSize > lotSize ? sentencesOf({ own: because('question/own-plan', {}) }) : undefined
}
