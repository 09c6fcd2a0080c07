// A supplier's past, on lots tested through the domain's own verbs.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { supplierSummaryOf } from '../../app/history/read-summary.ts'
import { runHere } from '../../app/kit/task.ts'
import { closeLot } from '../../app/lots/acts/close.ts'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import { suppliersOf } from '../../app/register/suppliers.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, failing, recordAll, toTest, type Wanted } from '../support/lot.ts'
import { PASSWORD, threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

/** Lots are made one supplier each; this gives them to one. */
const supplierWith = async (lots: number[]) => {
  const id = await registerSupplier(db, officer, { key: randomUUID(), name: randomUUID() })
  for (const lotId of lots) await owner`update lots set supplier_id = ${id} where id = ${lotId}`
  return id
}
const signed = async (lotId: number) => ({
  version: (await factsOf(db, lotId)).version,
  password: PASSWORD,
  reason: 'for the test',
})
const tested = async (found: number, choice?: DecisionChoice, wanted: Wanted = {}) => {
  const lotId = await drawnLot(db, three, wanted)
  await recordAll(db, three, lotId, found)
  if (choice) await decideLot(db, manager, lotId, { ...(await signed(lotId)), ...choice })
  return lotId
}
const screened = async (found: number, rest: number) => {
  const lotId = await tested(found, { outcome: 'screened' })
  await recordAll(db, three, lotId, rest)
  await closeLot(db, manager, lotId, { ...(await signed(lotId)), outcome: 'sorted' })
  return lotId
}

/** Binomial coefficient in whole numbers, for checks apart from the engine. */
const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k)
/** Chance that a sample of n of N holds exactly d of the D. */
const exactly = (d: number, { N, D, n }: { N: number; D: number; n: number }) =>
  D - d > N - n || d > D ? 0 : (choose(D, d) * choose(N - D, n - d)) / choose(N, n)

describe('a supplier’s past', () => {
  test('is its decided lots in the order of their decisions, each with its fraction and exact interval', async () => {
    const first = await tested(1, { outcome: 'accepted' })
    const second = await screened(2, 3)
    const concession = { riskBearer: 'A. Person', use: 'desks', cords: 5, until: '2030-01-31' }
    const third = await tested(2, { outcome: 'conceded', concession })
    const open = await drawnLot(db, three)
    const gone = await drawnLot(db, three)
    await withdrawLot(db, manager, gone, { version: (await factsOf(db, gone)).version, reason: 'x' })
    const standing = await supplierSummaryOf(db, runHere, await supplierWith([first, second, third, open, gone]))
    expect(standing.open).toBe(1)
    expect(standing.lots).toMatchObject([
      { lotId: first, outcome: 'accepted', accepted: true, recorded: 6, found: 1, whole: false, fraction: 1 / 6 },
      {
        lotId: second,
        outcome: 'sorted',
        accepted: false,
        recorded: 24,
        found: 5,
        whole: true,
        fraction: 5 / 24,
        interval: { lower: 5 / 24, upper: 5 / 24 },
      },
      { lotId: third, outcome: 'conceded', accepted: false, recorded: 6, found: 2, whole: false, fraction: 2 / 6 },
    ])
  })

  test('gives each sample the limits that invert the hypergeometric law at 97.5 % a side', async () => {
    const standing = await supplierSummaryOf(
      db,
      runHere,
      await supplierWith([await tested(1, { outcome: 'accepted' })]),
    )
    const { lower = 0, upper = 0 } = standing.lots[0]?.interval ?? {}
    const most = Math.round(upper * 24)
    const least = Math.round(lower * 24)
    const few = (D: number) => exactly(0, { N: 24, D, n: 6 }) + exactly(1, { N: 24, D, n: 6 })
    const many = (D: number) => 1 - exactly(0, { N: 24, D, n: 6 })
    expect(few(most)).toBeGreaterThan(0.025)
    expect(few(most + 1)).toBeLessThanOrEqual(0.025)
    expect(many(least)).toBeGreaterThan(0.025)
    expect(least === 1 || many(least - 1) <= 0.025).toBe(true)
  })

  test('takes a stopped sample with what was tested of it, and makes no share of that', async () => {
    const stopped = await drawnLot(db, three)
    for (const position of (await toTest(db, stopped)).slice(0, 2))
      await recordResult(db, inspector, stopped, { key: randomUUID(), position, ...failing })
    await decideLot(db, manager, stopped, { ...(await signed(stopped)), outcome: 'returned' })
    const alone = await supplierSummaryOf(db, runHere, await supplierWith([stopped]))
    expect(alone.lots[0]).toMatchObject({
      recorded: 2,
      found: 2,
      fraction: undefined,
      whole: false,
      interval: { upper: 1 },
    })
  })

  test('lists suppliers with how many lots they sent, the latest first', async () => {
    const none = await supplierWith([])
    const some = await supplierWith([await tested(0, { outcome: 'accepted' }), await drawnLot(db, three)])
    const list = await suppliersOf(db)
    expect(list.find((each) => each.id === some)).toMatchObject({ lots: 2, decided: 1, lastAt: expect.any(Date) })
    expect(list.find((each) => each.id === none)).toMatchObject({ lots: 0, decided: 0, lastAt: undefined })
    expect(list.findIndex((each) => each.id === some)).toBeLessThan(list.findIndex((each) => each.id === none))
  })

  test('of a supplier that is not there is refused', async () => {
    await expect(supplierSummaryOf(db, runHere, 999_999)).rejects.toMatchObject({ kind: 'missing' })
  })
})
