// Pages of suppliers: the register, and one supplier's past.

import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { ComparisonPage } from '../../views/suppliers/comparison-page.tsx'
import { SupplierPage } from '../../views/suppliers/supplier-page.tsx'
import { SuppliersPage } from '../../views/suppliers/suppliers-page.tsx'
import { compareSuppliers } from '../history/comparison.ts'
import { noteSeries } from '../history/series/note.ts'
import { supplierHistoryOf } from '../history/supplier-page.ts'
import { Refusal } from '../kit/refusal.ts'
import { registerSupplier } from '../register/register-supplier.ts'
import { suppliersOf } from '../register/suppliers.ts'
import { comparisonForm, noteForm, registerForm } from './forms/suppliers.ts'
import { seeDone } from './http/done.ts'
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
  if (done.kind === 'done') return seeDone(c, `/suppliers/${done.result}`, { code: 'supplier-registered' })
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
  if (done.kind === 'done') return seeDone(c, `/suppliers/${supplierId}`, { code: 'series-noted' })
  return c.html(<SupplierPage {...(await pageOf(c))} {...done} />, done.status)
})

/** Where the question stood before it was one page for all suppliers. */
supplierRoutes.get('/:supplier/percentage', (c) => {
  const asked = new URLSearchParams(c.req.query())
  asked.set('supplier', String(readId(c, 'supplier')))
  return c.redirect(`/percentage?${asked}`, 301)
})

/** What the page of a supplier shows. */
async function pageOf(c: Context<Env>) {
  const past = await supplierHistoryOf(c.var.db, runFor(c), readId(c, 'supplier'))
  return { ...frameOf(c), past, formKey: randomUUID() }
}
