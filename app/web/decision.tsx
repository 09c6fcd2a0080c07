// Pages of the decision: the four choices, the closing after a screening, the frozen evidence, the cords to be taken out.
import { type Context, Hono } from 'hono'
import { ClosingPage } from '../../views/lots/decision/closing-page.tsx'
import { DecisionPage } from '../../views/lots/decision/decision-page.tsx'
import { EvidencePage } from '../../views/lots/decision/evidence-page.tsx'
import { TakenOutPage } from '../../views/lots/decision/taken-out-page.tsx'
import { expectedUntestedOf } from '../advice/expected-untested.ts'
import { finishedLotsFor } from '../advice/history.ts'
import { cordsAtOnce } from '../kit/limits.ts'
import { Refusal } from '../kit/refusal.ts'
import { closeLot } from '../lots/acts/close.ts'
import { decideLot } from '../lots/acts/decide.ts'
import { marginsIn } from '../lots/evidence/margins.ts'
import { checkedAtOnce, evidenceRows, frozenEvidence, rowsAreAsSigned } from '../lots/evidence/read.ts'
import { readLot } from '../lots/record/lot.ts'
import type { CordFacts } from '../lots/record/pick-list.ts'
import { failingCordsOf, reviewOf } from '../lots/review.ts'
import { consequencesOf } from '../lots/rules/consequences.ts'
import { positionFrom } from '../lots/rules/position.ts'
import { requireRole } from '../people/person.ts'
import { closingForm, decisionForm } from './forms/decision.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'

export const decisionRoutes = new Hono<Env>()

decisionRoutes.get('/:lot/decision', async (c) => c.html(await decisionPage(c)))

decisionRoutes.post('/:lot/decision', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, decisionForm, (form) => decideLot(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}`, { code: 'decision-signed' })
  return c.html(await decisionPage(c, done), done.status)
})

decisionRoutes.get('/:lot/closing', async (c) => c.html(await closingPage(c)))

decisionRoutes.post('/:lot/closing', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, closingForm, (form) => closeLot(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}`, { code: 'lot-closed' })
  return c.html(await closingPage(c, done), done.status)
})

decisionRoutes.get('/:lot/taken-out', async (c) => {
  const { lot, failing } = await failingCordsOf(c.var.db, readId(c, 'lot'), pageOf(c))
  return c.html(<TakenOutPage {...frameOf(c)} lot={lot} {...takenOut(failing)} />)
})

decisionRoutes.get('/:lot/evidence', async (c) => c.html(await evidencePage(c, 'sample')))
decisionRoutes.get('/:lot/evidence/screening', async (c) => c.html(await evidencePage(c, 'screening')))

type Told = Pick<Parameters<typeof DecisionPage>[0], 'problems' | 'typed'>

async function decisionPage(c: Context<Env>, told: Told = {}) {
  requireRole(viewerOf(c), 'decide-lot')
  const { db } = c.var
  const { lot, bounds, margins, failing } = await reviewOf(db, readId(c, 'lot'), pageOf(c))
  const finished = await finishedLotsFor(db, lot)
  const facts = {
    lot,
    margins,
    consequences: consequencesOf(
      bounds,
      lot.terms,
      expectedUntestedOf(lot, finished, bounds),
      lot.notHad.undecided.length,
    ),
    finished,
    takenOut: takenOut(failing),
  }
  return <DecisionPage {...frameOf(c)} {...facts} {...told} />
}

async function closingPage(c: Context<Env>, told: Told = {}) {
  requireRole(viewerOf(c), 'decide-lot')
  const { lot, failing } = await failingCordsOf(c.var.db, readId(c, 'lot'), pageOf(c))
  if (!lot.bounds || !lot.acts.sort) throw new Refusal('conflict', 'lot/not-to-close', { lot: lot.id })
  const returnCost = consequencesOf(lot.bounds, lot.terms).return
  const page = { lot, returnCost, takenOut: takenOut(failing) }
  return <ClosingPage {...frameOf(c)} {...page} {...told} />
}

async function evidencePage(c: Context<Env>, of: 'sample' | 'screening') {
  const lot = await readLot(c.var.db, readId(c, 'lot'))
  const { db } = c.var
  const evidence = await frozenEvidence(db, lot.id, of)
  const decision = of === 'sample' ? lot.decision : lot.closing
  if (!decision) throw new Error(`lot ${lot.id} has evidence and no decision`)
  const after = positionFrom(c.req.query('after'))
  const rows = await evidenceRows(db, evidence, { after, atMost: cordsAtOnce + 1 })
  const asked = checkedAtOnce(evidence) || c.req.query('check') === 'rows'
  const page = {
    decision,
    evidence,
    results: rows.slice(0, cordsAtOnce),
    next: rows.length > cordsAtOnce ? rows[cordsAtOnce - 1]?.position : undefined,
    margins: await marginsIn(db, evidence.asOf, evidence.rows.count),
    asSigned: asked ? await rowsAreAsSigned(db, evidence) : undefined,
    path: c.req.path,
  }
  return <EvidencePage {...frameOf(c)} {...page} />
}

function pageOf(c: Context<Env>) {
  return { after: positionFrom(c.req.query('after')), atMost: cordsAtOnce + 1 }
}

function takenOut(failing: CordFacts[]) {
  const next = failing.length > cordsAtOnce ? failing[cordsAtOnce - 1]?.position : undefined
  return { cords: failing.slice(0, cordsAtOnce), next }
}
