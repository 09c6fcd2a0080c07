// The officer's page of plans: the ways side by side for the lot in hand, and the freezing of one.
import { type Context, Hono } from 'hono'
import { ChoosePlanPage } from '../../views/lots/plan/choose-plan-page.tsx'
import { sentencesOf } from '../../views/words/refusals.ts'
import { Refusal } from '../kit/refusal.ts'
import { freezePlan } from '../lots/acts/freeze-plan.ts'
import { optionsFields, optionsFor } from '../lots/plan-choice.ts'
import { readLot } from '../lots/record/lot.ts'
import { requireRole } from '../people/person.ts'
import { planForm } from './forms/lots.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, readQuery, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'
import { runFor } from './http/work.ts'

export const planRoutes = new Hono<Env>()

planRoutes.get('/:lot/plan', async (c) => {
  const page = await choicesIn(c)
  return c.html(<ChoosePlanPage {...page} />, page.problems ? 422 : 200)
})

planRoutes.post('/:lot/plan', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, planForm, (form) => freezePlan(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return c.redirect(`/lots/${id}`, 303)
  return c.html(<ChoosePlanPage {...(await choicesIn(c))} problems={done.problems} />, done.status)
})

/** What the page shows for the question in the address: the ways for the lot, or what is wrong with the question. */
async function choicesIn(c: Context<Env>) {
  requireRole(viewerOf(c), 'choose-plan')
  const lot = await readLot(c.var.db, readId(c, 'lot'))
  if (!lot.acts.plan) throw new Refusal('conflict', 'lot/not-to-plan', { lot: lot.id })
  const read = readQuery(c, optionsFields)
  const frame = { ...frameOf(c), lot }
  if (read.kind === 'unreadable')
    return {
      ...frame,
      asked: { ...optionsFields.parse({}), ...read.typed },
      options: undefined,
      problems: read.problems,
    }
  const options = await optionsFor(runFor(c), lot, read.value)
  return {
    ...frame,
    asked: read.value,
    options: options.kind === 'options' ? options : undefined,
    problems: options.kind === 'refused' ? sentencesOf(options.causes) : undefined,
  }
}
