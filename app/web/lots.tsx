// Pages of lots: the list, one lot's record, and its steps up to the frozen plan; the others are mounted below.

import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { againAsTyped, CorrectionPage, NewLotPage } from '../../views/lots/announcement-page.tsx'
import { ClosedLotsPage } from '../../views/lots/closed-page.tsx'
import { CoveragePage } from '../../views/lots/coverage-page.tsx'
import { LotsPage } from '../../views/lots/lots-page.tsx'
import { ReceiptCheckPage } from '../../views/lots/receipt-check-page.tsx'
import { ReceiptPage } from '../../views/lots/receipt-page.tsx'
import { LotPage } from '../../views/lots/record/lot-page.tsx'
import { WithdrawalPage } from '../../views/lots/withdrawal-page.tsx'
import { alertsOf } from '../desk/alerts.ts'
import { closedLots } from '../desk/closed-lots.ts'
import { wordsIn } from '../desk/find.ts'
import { lotsWaiting } from '../desk/work-list.ts'
import { coverageOf } from '../history/coverage.ts'
import { lengths } from '../kit/limits.ts'
import { announceLot } from '../lots/acts/announce.ts'
import { correctLot } from '../lots/acts/correct.ts'
import { receiveLot } from '../lots/acts/receive.ts'
import { withdrawLot } from '../lots/acts/withdraw.ts'
import { receiptCheck } from '../lots/receipt-check.ts'
import { factsOf, readLot } from '../lots/record/lot.ts'
import { requireRole } from '../people/person.ts'
import { itemsOf } from '../register/items.ts'
import { suppliersOf } from '../register/suppliers.ts'
import type { ActOfRole } from '../terms/person.ts'
import { cordRoutes } from './cords.tsx'
import { decisionRoutes } from './decision.tsx'
import { documentRoutes } from './documents.tsx'
import { closedQuery, wishFrom } from './forms/closed-lots.ts'
import { announcementForm, formerQuery, lotCorrectionForm, receiptForm, withdrawalForm } from './forms/lots.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, readQuery, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'
import { runFor } from './http/work.ts'
import { planRoutes } from './plan.tsx'
import { fileRoutes } from './results-file.tsx'

export const lotRoutes = new Hono<Env>()

lotRoutes.get('/', async (c) => {
  const now = new Date()
  const find = (c.req.query('find') ?? '').trim().slice(0, lengths.name)
  const lots = await lotsWaiting(c.var.db, wordsIn(find))
  const all = find === '' ? lots : await lotsWaiting(c.var.db)
  const alerts = await alertsOf(c.var.db, c.var.forAll, all, now)
  return c.html(<LotsPage {...frameOf(c)} lots={lots} alerts={alerts} find={find} now={now} />)
})

lotRoutes.get('/closed', async (c) => {
  const asked = closedQuery.parse(c.req.query())
  const page = { asked, closed: await closedLots(c.var.db, wishFrom(asked)), ...(await registers(c)) }
  return c.html(<ClosedLotsPage {...frameOf(c)} {...page} />)
})

lotRoutes.get('/calibration', async (c) =>
  c.html(<CoveragePage {...frameOf(c)} coverage={await coverageOf(c.var.db, runFor(c))} />),
)

lotRoutes.get('/new', async (c) => {
  requireRole(viewerOf(c), 'announce-lot')
  const page = { ...(await registers(c)), formKey: randomUUID(), typed: await typedAgain(c) }
  return c.html(<NewLotPage {...frameOf(c)} {...page} />)
})

lotRoutes.post('/', async (c) => {
  const done = await runForm(c, announcementForm, (form) => announceLot(c.var.db, viewerOf(c), form))
  if (done.kind === 'done') return seeDone(c, `/lots/${done.result}`, { code: 'lot-announced' })
  return c.html(<NewLotPage {...frameOf(c)} {...(await registers(c))} {...done} formKey={randomUUID()} />, done.status)
})

lotRoutes.get('/:lot', async (c) => c.html(<LotPage {...frameOf(c)} lot={await lotOf(c)} />))

lotRoutes.get('/:lot/correction', async (c) => {
  const lot = await lotFor(c, 'correct-lot')
  return c.html(<CorrectionPage {...frameOf(c)} {...(await registers(c))} lot={lot} />)
})

lotRoutes.post('/:lot/correction', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, lotCorrectionForm, (form) => correctLot(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}`, { code: 'lot-corrected' })
  return c.html(
    <CorrectionPage {...frameOf(c)} {...(await registers(c))} {...done} lot={await lotOf(c)} />,
    done.status,
  )
})

lotRoutes.get('/:lot/receipt', async (c) => {
  const lot = await lotFor(c, 'receive-lot')
  return c.html(<ReceiptPage {...frameOf(c)} lot={lot} />)
})

lotRoutes.post('/:lot/receipt', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, receiptForm, async (form) => {
    const check = form.shown === undefined ? await receiptCheck(c.var.db, viewerOf(c), id, form) : undefined
    if (!check) await receiveLot(c.var.db, viewerOf(c), id, form)
    return check && { ...check, form }
  })
  if (done.kind === 'done' && done.result)
    return c.html(<ReceiptCheckPage {...frameOf(c)} {...done.result} lot={await lotOf(c)} />)
  if (done.kind === 'done') return seeDone(c, `/lots/${id}`, { code: 'lot-received' })
  return c.html(<ReceiptPage {...frameOf(c)} {...done} lot={await lotOf(c)} />, done.status)
})

lotRoutes.get('/:lot/withdrawal', async (c) => {
  const lot = await lotFor(c, 'withdraw-lot')
  return c.html(<WithdrawalPage {...frameOf(c)} lot={lot} />)
})

lotRoutes.post('/:lot/withdrawal', async (c) => {
  const id = readId(c, 'lot')
  const done = await runForm(c, withdrawalForm, (form) => withdrawLot(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/lots/${id}`, { code: 'lot-withdrawn' })
  return c.html(<WithdrawalPage {...frameOf(c)} {...done} lot={await lotOf(c)} />, done.status)
})

lotRoutes.route('/', planRoutes)
lotRoutes.route('/', cordRoutes)
lotRoutes.route('/', fileRoutes)
lotRoutes.route('/', decisionRoutes)
lotRoutes.route('/', documentRoutes)

/** The lot of the path, for a page of one role. */
async function lotFor(c: Context<Env>, act: ActOfRole) {
  requireRole(viewerOf(c), act)
  return lotOf(c)
}

async function lotOf(c: Context<Env>) {
  return factsOf(c.var.db, readId(c, 'lot'))
}

/** From the page of a lot that went back the form begins with what the new one has in common with it. */
async function typedAgain(c: Context<Env>) {
  const said = readQuery(c, formerQuery)
  if (said.kind === 'unreadable' || said.value.formerLot === undefined) return undefined
  return againAsTyped(await readLot(c.var.db, said.value.formerLot), said.value.before)
}

async function registers(c: Context<Env>) {
  return { suppliers: await suppliersOf(c.var.db), items: await itemsOf(c.var.db) }
}
