// The history's queries find what they want by an index: no cord of other lots is read. The database's own plan is asked (EXPLAIN).
import postgres from 'postgres'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { alertsOf } from '../../../app/desk/alerts.ts'
import { lotsWaiting } from '../../../app/desk/work-list.ts'
import { compareSuppliers } from '../../../app/history/comparison.ts'
import { coverageOf } from '../../../app/history/coverage.ts'
import { marginsOf } from '../../../app/history/margins.ts'
import { percentageReport } from '../../../app/history/replay/report.ts'
import { supplierHistoryOf } from '../../../app/history/supplier-page.ts'
import { runHere } from '../../../app/kit/task.ts'
import { fillHistory } from '../../../bench/long-history.ts'
import { databaseOver } from '../../../db/client.ts'
import { freshDatabase } from '../../support/database.ts'

const { owner, address } = await freshDatabase()
type Asked = { text: string; values: Parameters<typeof owner.unsafe>[1] }
const asked: Asked[] = []
const listening = postgres({
  ...address,
  max: 1,
  onnotice: () => {},
  debug: (_, text, values) => asked.push({ text, values }),
})
const db = databaseOver(listening)
afterAll(() => listening.end())
beforeAll(() => fillHistory(owner, { lots: 400, cordsOfLot: 150, suppliers: 40, items: 5 }))

const tenth = { percent: '10', allowed: 0, draw: 1 }

type PlanNode = { 'Node Type': string; 'Relation Name'?: string; Plans?: PlanNode[] }

/** Tables of cords that the database would read from end to end for a query. */
async function readWhole({ text, values }: Asked): Promise<string[]> {
  const rows = await owner.unsafe<{ 'QUERY PLAN': { Plan: PlanNode }[] }[]>(`explain (format json) ${text}`, values)
  const seen: string[] = []
  const walk = (node: PlanNode) => {
    if (
      node['Node Type'] === 'Seq Scan' &&
      ['results', 'drawn_cords', 'earlier_results'].includes(node['Relation Name'] ?? '')
    )
      seen.push(`${node['Relation Name']}: ${text}`)
    for (const child of node.Plans ?? []) walk(child)
  }
  for (const { Plan } of rows[0]?.['QUERY PLAN'] ?? []) walk(Plan)
  return seen
}

describe('the history', () => {
  test.each<[string, () => Promise<unknown>]>([
    ['a supplier’s page', () => supplierHistoryOf(db, runHere, 7)],
    ['a supplier’s margins', () => marginsOf(db, 7)],
    ['the percentage question of a supplier', () => percentageReport(db, runHere, { ...tenth, supplierId: 7 })],
    ['the percentage question of everything', () => percentageReport(db, runHere, tenth)],
    ['suppliers side by side', () => compareSuppliers(db, runHere)],
    ['the list of lots with its alerts', async () => alertsOf(db, runHere, await lotsWaiting(db), new Date())],
    ['the coverage', () => coverageOf(db, runHere)],
  ])('%s reads cords by index alone', async (_, ask) => {
    asked.length = 0
    await ask()
    const queries = asked.filter(({ text }) => /^\s*(select|with)\b/i.test(text) && !/pg_catalog|pg_type/.test(text))
    expect(queries.length).toBeGreaterThan(0)
    for (const query of queries) expect(await readWhole(query)).toEqual([])
  })

  test('would be told of a query that reads every cord', async () => {
    const whole = await readWhole({ text: 'select count(*) from results where note is null', values: [] })
    expect(whole).toHaveLength(1)
  })
})
