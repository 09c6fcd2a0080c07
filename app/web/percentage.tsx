// Pages that look over the whole record.
import { Hono } from 'hono'
import { PercentageReportPage } from '../../views/percentage/report-page.tsx'
import { percentageReport } from '../history/replay/report.ts'
import { itemChoices } from '../register/items.ts'
import { supplierChoices } from '../register/suppliers.ts'
import { percentageReportForm } from './forms/percentage.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readQuery } from './http/read.ts'
import { runFor } from './http/work.ts'

export const reportRoutes = new Hono<Env>()

reportRoutes.get('/', async (c) => {
  const { db } = c.var
  const choices = { suppliers: await supplierChoices(db), items: await itemChoices(db) }
  const asked = readQuery(c, percentageReportForm)
  if (asked.kind === 'unreadable')
    return c.html(<PercentageReportPage {...frameOf(c)} choices={choices} {...asked} />, 422)
  const { supplier: supplierId, item: itemId, ...wish } = asked.value
  const report = await percentageReport(db, runFor(c), { ...wish, supplierId, itemId })
  const typed = { ...asked.typed, percent: wish.percent, allowed: String(wish.allowed) }
  return c.html(<PercentageReportPage {...frameOf(c)} choices={choices} typed={typed} report={report} />)
})
