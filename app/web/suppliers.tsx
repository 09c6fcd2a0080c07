// Pages of suppliers: the register, one supplier's past, and the percentage question.

import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { PercentagePage } from '../../views/percentage/percentage-page.tsx'
import { ComparisonPage } from '../../views/suppliers/comparison-page.tsx'
import { SupplierPage } from '../../views/suppliers/supplier-page.tsx'
import { SuppliersPage } from '../../views/suppliers/suppliers-page.tsx'
import { compareSuppliers } from '../history/comparison.ts'
import { replayPercentage } from '../history/replay/answer.ts'
import { noteSeries } from '../history/series/note.ts'
import { supplierHistoryOf } from '../history/supplier-page.ts'
import { Refusal } from '../kit/refusal.ts'
import { registerSupplier } from '../register/register-supplier.ts'
import { supplierOf, suppliersOf } from '../register/suppliers.ts'
import { drawnPercentageForm } from './forms/percentage.ts'
import { comparisonForm, noteForm, registerForm } from './forms/suppliers.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, readQuery, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'
import { runFor } from './http/work.ts'

export const supplierRoutes = new Hono<Env>()

supplierRoutes.get('/', async (c) =>
  c.html(<SuppliersPage {...frameOf(c)} suppliers={await suppliersOf(c.var.db)} formKey={randomUUID()} />),
)

supplierRoutes.post('/', async (c) => {
  const done = await runForm(c, registerForm, (form) => registerSupplier(c.var.db, viewerOf(c), form))
  if (done.kind === 'done') return c.redirect(`/suppliers/${done.result}`, 303)
  const suppliers = await suppliersOf(c.var.db)
  return c.html(<SuppliersPage {...frameOf(c)} suppliers={suppliers} formKey={randomUUID()} {...done} />, done.status)
})

supplierRoutes.get('/comparison', async (c) => {
  const asked = readQuery(c, comparisonForm)
  if (asked.kind === 'unreadable') throw new Refusal('missing', 'item/unknown', {})
  const itemId = typeof asked.value.item === 'number' ? asked.value.item : undefined
  return c.html(<ComparisonPage {...frameOf(c)} comparison={await compareSuppliers(c.var.db, runFor(c), itemId)} />)
})

supplierRoutes.get('/:supplier', async (c) => c.html(<SupplierPage {...(await pageOf(c))} />))

supplierRoutes.post('/:supplier/series', async (c) => {
  const supplierId = readId(c, 'supplier')
  const done = await runForm(c, noteForm, (form) => noteSeries(c.var.db, viewerOf(c), supplierId, form))
  if (done.kind === 'done') return c.redirect(`/suppliers/${supplierId}`, 303)
  return c.html(<SupplierPage {...(await pageOf(c))} {...done} />, done.status)
})

supplierRoutes.get('/:supplier/percentage', async (c) => {
  const supplier = await supplierOf(c.var.db, readId(c, 'supplier'))
  const asked = readQuery(c, drawnPercentageForm)
  if (asked.kind === 'unreadable') return c.html(<PercentagePage {...frameOf(c)} supplier={supplier} {...asked} />, 422)
  const answer = await replayPercentage(c.var.db, runFor(c), supplier.id, asked.value)
  const typed = { percent: asked.value.percent, allowed: String(asked.value.allowed) }
  return c.html(<PercentagePage {...frameOf(c)} supplier={supplier} typed={typed} answer={answer} />)
})

/** What the page of a supplier shows. */
async function pageOf(c: Context<Env>) {
  const past = await supplierHistoryOf(c.var.db, runFor(c), readId(c, 'supplier'))
  return { ...frameOf(c), past, formKey: randomUUID() }
}
