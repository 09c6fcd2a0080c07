// Pages of suppliers: the register, one supplier's past, and the percentage question.
import { randomUUID } from 'node:crypto'
import { Hono } from 'hono'
import { z } from 'zod'
import { SuppliersPage } from '../../views/suppliers/list.tsx'
import { PercentagePage } from '../../views/suppliers/percentage.tsx'
import { StandingPage } from '../../views/suppliers/standing.tsx'
import type { Env } from '../http/env.ts'
import { formKey, text, wholeNumber } from '../http/fields.ts'
import { frameOf } from '../http/frame.ts'
import { carryOut, readId, readQuery } from '../http/read.ts'
import { readerOf } from '../http/session.ts'
import { plainDecimal } from '../kit/decimal.ts'
import { supplierOf, suppliersOf } from './list.ts'
import { registerSupplier } from './register.ts'
import { replayPercentage } from './replay.ts'
import { standingOf } from './standing.ts'

export const supplierRoutes = new Hono<Env>()

supplierRoutes.get('/', async (c) =>
  c.html(<SuppliersPage {...frameOf(c)} suppliers={await suppliersOf(c.var.db)} formKey={randomUUID()} />),
)

const registerForm = z.object({ key: formKey, name: text('Type the supplier’s name', 120) })

supplierRoutes.post('/', async (c) => {
  const done = await carryOut(c, registerForm, (form) => registerSupplier(c.var.db, readerOf(c), form))
  if (done.kind === 'done') return c.redirect(`/suppliers/${done.result}`, 303)
  const suppliers = await suppliersOf(c.var.db)
  return c.html(<SuppliersPage {...frameOf(c)} suppliers={suppliers} formKey={randomUUID()} {...done} />, 422)
})

supplierRoutes.get('/:supplier', async (c) => {
  const standing = await standingOf(c.var.db, readId(c, 'supplier'))
  return c.html(<StandingPage {...frameOf(c)} standing={standing} />)
})

const percentageForm = z.object({
  percent: z
    .string()
    .default('10')
    .transform((typed, read) => {
      const digits = plainDecimal(typed)
      if (digits === undefined || Number(digits) <= 0 || Number(digits) > 100)
        read.addIssue({ code: 'custom', message: 'A percentage is above 0 and at most 100' })
      return digits ?? ''
    }),
  allowed: wholeNumber({ from: 0, to: 1_000_000 }, 'Type how many may fail: a whole number from 0').default(0),
  lot: wholeNumber({ from: 1, to: 2_147_483_647 }, 'There is no such lot').optional(),
  draw: wholeNumber({ from: 1, to: 1_000_000_000 }, 'There is no such draw').default(1),
})

supplierRoutes.get('/:supplier/percentage', async (c) => {
  const supplier = await supplierOf(c.var.db, readId(c, 'supplier'))
  const asked = readQuery(c, percentageForm)
  if (asked.kind === 'unreadable') return c.html(<PercentagePage {...frameOf(c)} supplier={supplier} {...asked} />, 422)
  const answer = await replayPercentage(c.var.db, supplier.id, asked.value)
  const typed = { percent: asked.value.percent, allowed: String(asked.value.allowed) }
  return c.html(<PercentagePage {...frameOf(c)} supplier={supplier} typed={typed} answer={answer} />)
})
