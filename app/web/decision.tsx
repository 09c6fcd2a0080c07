// Pages of the decision: the four choices, the closing after a screening, the frozen evidence, the cords to be taken out.
import { type Context, Hono } from 'hono'
import { ClosingPage } from '../../views/lots/decision/closing-page.tsx'
import { DecisionPage } from '../../views/lots/decision/decision-page.tsx'
import { EvidencePage } from '../../views/lots/decision/evidence-page.tsx'
import { TakenOutPage } from '../../views/lots/decision/taken-out-page.tsx'
import { supplierSummaryOf } from '../history/read-summary.ts'
import { Refusal } from '../kit/refusal.ts'
import { closeLot } from '../lots/acts/close.ts'
import { decideLot } from '../lots/acts/decide.ts'
import { marginsIn } from '../lots/evidence/margins.ts'
import { checkedAtOnce, evidenceRows, frozenEvidence, rowsAreAsSigned } from '../lots/evidence/read.ts'
import { factsOf, type LotFacts } from '../lots/record/lot.ts'
import { nonconformingCords } from '../lots/record/pick-list.ts'
import { consequencesOf } from '../lots/rules/consequences.ts'
import { positionFrom } from '../lots/rules/position.ts'
import { requireRole } from '../people/person.ts'
import { closingForm, decisionForm } from './forms/decision.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'

export const decisionRoutes = new Hono<Env>()

decisionRoutes.get('/:lot/decision', async (c) => c.html(await decisionPage(c)))

decisionRoutes.post('/:lot/decision', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, decisionForm, (form) => decideLot(c.var.db, viewerOf(c), id, form))
  return done.kind === 'done' ? c.redirect(`/lots/${id}`, 303) : c.html(await decisionPage(c, done), done.status)
})

decisionRoutes.get('/:lot/closing', async (c) => c.html(await closingPage(c)))

decisionRoutes.post('/:lot/closing', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, closingForm, (form) => closeLot(c.var.db, viewerOf(c), id, form))
  return done.kind === 'done' ? c.redirect(`/lots/${id}`, 303) : c.html(await closingPage(c, done), done.status)
})

decisionRoutes.get('/:lot/taken-out', async (c) => {
  const lot = await factsOf(c.var.db, readId(c, 'lot'))
  return c.html(<TakenOutPage {...frameOf(c)} lot={lot} {...(await takenOut(c, lot.id))} />)
})

decisionRoutes.get('/:lot/evidence', async (c) => c.html(await evidencePage(c, 'sample')))
decisionRoutes.get('/:lot/evidence/screening', async (c) => c.html(await evidencePage(c, 'screening')))

type Told = Pick<Parameters<typeof DecisionPage>[0], 'problems' | 'typed'>

async function decisionPage(c: Context<Env>, told: Told = {}) {
  const lot = await lotToDecide(c)
  const { db } = c.var
  if (lot.state !== 'drawn') throw new Refusal('conflict', `Lot ${lot.id} is not to be decided on now`)
  if (!lot.bounds) throw new Refusal('conflict', noVerdict(lot))
  const facts = {
    lot,
    margins: await marginsNow(c, lot),
    consequences: consequencesOf(lot.bounds, lot.terms),
    standing: await supplierSummaryOf(db, c.var.forAll, lot.supplier.id),
    takenOut: await takenOut(c, lot.id),
  }
  return <DecisionPage {...frameOf(c)} {...facts} {...told} />
}

/** The count and no bound: nothing is proven yet, and nobody can decide. */
function noVerdict({ id, plan, progress: { sampleRecorded, sampleNonconforming } }: LotFacts): string {
  return `The plan of lot ${id} has no verdict yet: ${sampleRecorded} of ${plan?.sampleSize} cords are recorded, of which ${sampleNonconforming} count as not conforming`
}

/** The counts stand in the tally: only the cords that the figure shows are read. */
function marginsNow(c: Context<Env>, { id, version, progress }: LotFacts) {
  const { sampleRecorded, restRecorded } = progress
  return marginsIn(c.var.db, { lotId: id, lotVersion: version, lastPick: undefined }, sampleRecorded + restRecorded)
}

async function closingPage(c: Context<Env>, told: Told = {}) {
  const lot = await lotToDecide(c)
  if (!lot.bounds || lot.state !== 'screened')
    throw new Refusal('conflict', `Lot ${lot.id} is not screened, or it is closed already`)
  const returnCost = consequencesOf(lot.bounds, lot.terms).return
  const page = { lot, returnCost, takenOut: await takenOut(c, lot.id) }
  return <ClosingPage {...frameOf(c)} {...page} {...told} />
}

async function lotToDecide(c: Context<Env>) {
  requireRole(viewerOf(c), 'manager', 'decide on a lot')
  return factsOf(c.var.db, readId(c, 'lot'))
}

async function evidencePage(c: Context<Env>, of: 'sample' | 'screening') {
  const lot = await factsOf(c.var.db, readId(c, 'lot'))
  const { db } = c.var
  const evidence = await frozenEvidence(db, lot.id, of)
  const decision = of === 'sample' ? lot.decision : lot.closing
  if (!decision) throw new Error(`lot ${lot.id} has evidence and no decision`)
  const after = positionFrom(c.req.query('after'))
  const rows = await evidenceRows(db, evidence, { after, atMost: atOnce + 1 })
  const asked = checkedAtOnce(evidence) || c.req.query('check') === 'rows'
  const page = {
    decision,
    evidence,
    results: rows.slice(0, atOnce),
    next: rows.length > atOnce ? rows[atOnce - 1]?.position : undefined,
    margins: await marginsIn(db, evidence.asOf, evidence.rows.count),
    asSigned: asked ? await rowsAreAsSigned(db, evidence) : undefined,
    path: c.req.path,
  }
  return <EvidencePage {...frameOf(c)} {...page} />
}

/** As many cords as a page takes; a screened lot may hold a hundred thousand that do not conform. */
const atOnce = 1000

async function takenOut(c: Context<Env>, lotId: number) {
  const after = positionFrom(c.req.query('after'))
  const cords = await nonconformingCords(c.var.db, lotId, { after, atMost: atOnce + 1 })
  const next = cords.length > atOnce ? cords[atOnce - 1]?.position : undefined
  return { cords: cords.slice(0, atOnce), next }
}
