// Pages of suppliers: the register, one supplier's past, and the percentage question.

import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import { PercentagePage } from '../../views/percentage/percentage-page.tsx'
import { ComparisonPage } from '../../views/suppliers/comparison-page.tsx'
import { SupplierPage } from '../../views/suppliers/supplier-page.tsx'
import { SuppliersPage } from '../../views/suppliers/suppliers-page.tsx'
import { compareSuppliers } from '../history/comparison.ts'
import { replayPercentage } from '../history/replay/answer.ts'
import { noteSeries } from '../history/series/note.ts'
import { supplierHistoryOf } from '../history/supplier-page.ts'
import { choice, formKey, longText, text, wholeNumber } from '../kit/fields.ts'
import { largestId, lengths } from '../kit/limits.ts'
import { Refusal } from '../kit/refusal.ts'
import { registerSupplier } from '../register/register-supplier.ts'
import { supplierOf, suppliersOf } from '../register/suppliers.ts'
import { percentageFields } from './forms/percentage.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, readQuery, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'
import { runFor } from './http/work.ts'

export const supplierRoutes = new Hono<Env>()

supplierRoutes.get('/', async (c) =>
  c.html(<SuppliersPage {...frameOf(c)} suppliers={await suppliersOf(c.var.db)} formKey={randomUUID()} />),
)

const registerForm = z.object({ key: formKey, name: text('Type the supplier’s name', lengths.name) })

supplierRoutes.post('/', async (c) => {
  const done = await runForm(c, registerForm, (form) => registerSupplier(c.var.db, viewerOf(c), form))
  if (done.kind === 'done') return c.redirect(`/suppliers/${done.result}`, 303)
  const suppliers = await suppliersOf(c.var.db)
  return c.html(<SuppliersPage {...frameOf(c)} suppliers={suppliers} formKey={randomUUID()} {...done} />, done.status)
})

const oneItem = wholeNumber({ from: 1, to: largestId }, 'There is no such item')
const comparisonForm = z.object({ item: z.union([z.literal(['all', '']), oneItem]).default('all') })

supplierRoutes.get('/comparison', async (c) => {
  const asked = readQuery(c, comparisonForm)
  if (asked.kind === 'unreadable') throw new Refusal('missing', 'item/unknown', {})
  const itemId = typeof asked.value.item === 'number' ? asked.value.item : undefined
  return c.html(<ComparisonPage {...frameOf(c)} comparison={await compareSuppliers(c.var.db, runFor(c), itemId)} />)
})

supplierRoutes.get('/:supplier', async (c) => c.html(<SupplierPage {...(await pageOf(c))} />))

const noteForm = z.object({
  key: formKey,
  itemId: oneItem,
  kind: choice(['supplier-acted', 'reduced-wanted', 'reduced-ended'], 'This form is not whole: load the page again'),
  reason: longText('Give the reason', lengths.reason),
})

supplierRoutes.post('/:supplier/series', async (c) => {
  const supplierId = readId(c, 'supplier')
  const done = await runForm(c, noteForm, (form) => noteSeries(c.var.db, viewerOf(c), supplierId, form))
  if (done.kind === 'done') return c.redirect(`/suppliers/${supplierId}`, 303)
  return c.html(<SupplierPage {...(await pageOf(c))} {...done} />, done.status)
})

const percentageForm = z.object({
  ...percentageFields,
  lot: wholeNumber({ from: 1, to: largestId }, 'There is no such lot').optional(),
  draw: wholeNumber({ from: 1, to: 1_000_000_000 }, 'There is no such draw').default(1),
})

supplierRoutes.get('/:supplier/percentage', async (c) => {
  const supplier = await supplierOf(c.var.db, readId(c, 'supplier'))
  const asked = readQuery(c, percentageForm)
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
