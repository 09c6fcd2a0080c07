// The percentage question, on lots tested through the domain's own verbs.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { supplierSummaryOf } from '../../../app/history/read-summary.ts'
import { lotGrid } from '../../../app/history/replay/grid.ts'
import { percentageReport } from '../../../app/history/replay/report.ts'
import { runHere } from '../../../app/kit/task.ts'
import { closeLot } from '../../../app/lots/acts/close.ts'
import { type DecisionChoice, decideLot } from '../../../app/lots/acts/decide.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { registerSupplier } from '../../../app/register/register-supplier.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, failing, recordAll, sendFile, toTest, type Wanted } from '../../support/lot.ts'
import { PASSWORD, threePeople } from '../../support/people.ts'
import { countAgainst, takeReserve } from '../../support/ruling.ts'

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
const replayed = (supplierId: number, percent: string, allowed: number) =>
  percentageReport(db, runHere, { supplierId, percent, allowed, draw: 1 })
const every = { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } } as const

/** Binomial coefficient in whole numbers, for checks apart from the engine. */
const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k)
/** Chance that a sample of n of N holds exactly d of the D. */
const exactly = (d: number, { N, D, n }: { N: number; D: number; n: number }) =>
  D - d > N - n || d > D ? 0 : (choose(D, d) * choose(N - D, n - d)) / choose(N, n)

describe('the percentage question', () => {
  test('replays the percentage exactly on lots tested whole, by plan and after screening apart', async () => {
    const planned = await tested(5, { outcome: 'accepted' }, every)
    const fine = await tested(1, { outcome: 'accepted' }, every)
    const sorted = await screened(2, 1)
    const sampled = await tested(0, { outcome: 'accepted' })
    const report = await replayed(await supplierWith([planned, fine, sorted, sampled]), '10', 0)
    // A tenth of 24 cords is 3, rounded up; chances by hand from binomial coefficients.
    const acceptance = (D: number) => exactly(0, { N: 24, D, n: 3 })
    expect(report.drawn.lots).toMatchObject([
      { lotId: sorted, nonconforming: 3, acceptance: expect.closeTo(acceptance(3), 12) },
      {
        lotId: fine,
        nonconforming: 1,
        heldTooMany: false,
        sampleSize: 3,
        acceptance: expect.closeTo(acceptance(1), 12),
      },
      {
        lotId: planned,
        nonconforming: 5,
        tooMany: 3,
        heldTooMany: true,
        sampleSize: 3,
        acceptance: expect.closeTo(acceptance(5), 12),
        shipped: expect.closeTo(5 * acceptance(5), 12),
      },
    ])
    expect(report.byPlan).toMatchObject({
      lots: 2,
      heldTooMany: 1,
      acceptedOfThose: expect.closeTo(acceptance(5), 12),
      shippedOfThose: expect.closeTo(5 * acceptance(5), 12),
    })
    expect(report.afterScreening).toMatchObject({
      lots: 1,
      heldTooMany: 1,
      acceptedOfThose: expect.closeTo(acceptance(3), 12),
    })
    expect(report.remainders.fraction).toEqual({ value: 9 / 72, own: true })
  })

  test('draws the latest lot that held too many, another that is asked for, and none of another supplier', async () => {
    const [bad, good, elsewhere] = [
      await tested(5, { outcome: 'accepted' }, every),
      await tested(1, { outcome: 'accepted' }, every),
      await tested(5, { outcome: 'accepted' }, every),
    ]
    const supplierId = await supplierWith([bad, good])
    const drawn = async (lot: number | undefined) =>
      (await percentageReport(db, runHere, { supplierId, percent: '10', allowed: 0, draw: 1, lot })).drawn.grid?.lotId
    expect(await drawn(undefined)).toBe(bad)
    expect(await drawn(good)).toBe(good)
    expect(await drawn(elsewhere)).toBe(bad)
  })

  test('takes found cords out of an accepted lot', async () => {
    const lotId = await tested(5, { outcome: 'accepted' }, every)
    const { drawn } = await replayed(await supplierWith([lotId]), '25', 1)
    const draw = { N: 24, D: 5, n: 6 }
    expect(drawn.lots[0]).toMatchObject({
      sampleSize: 6,
      acceptance: expect.closeTo(exactly(0, draw) + exactly(1, draw), 12),
      shipped: expect.closeTo(5 * exactly(0, draw) + 4 * exactly(1, draw), 12),
    })
  })

  test('leaves out lots in which a cord was missing, and says so', async () => {
    const lotId = await drawnLot(db, three, every)
    const [one = 0] = await toTest(db, lotId)
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: one, kind: 'gone', note: 'not there' })
    await recordAll(db, three, lotId)
    await countAgainst(db, manager, lotId, one)
    const standIn = await drawnLot(db, three)
    const [two = 0] = await toTest(db, standIn)
    await recordResult(db, inspector, standIn, {
      key: randomUUID(),
      position: two,
      kind: 'spoiled',
      note: 'crushed',
    })
    await takeReserve(db, manager, standIn, { key: randomUUID(), position: two })
    await recordAll(db, three, standIn, 2)
    await decideLot(db, manager, standIn, { ...(await signed(standIn)), outcome: 'screened' })
    await recordAll(db, three, standIn)
    const id = await supplierWith([lotId, standIn])
    expect(await replayed(id, '10', 0)).toMatchObject({
      leftOut: 2,
      byPlan: { lots: 0 },
      afterScreening: { lots: 0 },
      drawn: { lots: [], grid: undefined },
    })
    const [screenedLot] = (await supplierSummaryOf(db, runHere, id)).lots
    expect(screenedLot).toMatchObject({
      lotId: standIn,
      recorded: 23,
      found: 2,
      whole: false,
      interval: { lower: 2 / 24, upper: 3 / 24 },
    })
  })

  test('takes 2 % where the supplier has no fraction of its own above 0', async () => {
    const id = await supplierWith([await tested(0, { outcome: 'accepted' })])
    const assumed = { value: 0.02, own: false }
    expect((await replayed(id, '10', 0)).remainders.fraction).toEqual(assumed)
    expect((await replayed(await supplierWith([]), '10', 0)).remainders.fraction).toEqual(assumed)
  })

  test.each(['0', '101', 'x', '-5', ''])('of “%s” per cent is refused', async (percent) => {
    await expect(replayed(await supplierWith([]), percent, 0)).rejects.toMatchObject({
      kind: 'invalid',
      field: 'percent',
    })
  })

  // Common practice, no source: a lot in which 75 % of the cords fail is nearly always caught by a handful.
  test('catches a lot of which most fail with a handful', async () => {
    const lotId = await tested(18, { outcome: 'accepted' }, every)
    const { drawn } = await replayed(await supplierWith([lotId]), '20', 0)
    expect(drawn.lots[0]?.sampleSize).toBe(5)
    expect(drawn.lots[0]?.acceptance).toBeLessThan(0.001)
  })

  // Common practice, no source: a lot of 500 with 2 % nonconforming often passes a tenth that finds none. The chance is
  // C(490, 50) / C(500, 50) = 0.34516, recomputed in exact fractions.
  test('lets a lot of 500 with 2 % nonconforming through 345 times in 1000', async () => {
    const size = 500
    const lotId = await drawnLot(db, three, {
      size,
      plan: { kind: 'every-cord', sampleSize: size, acceptanceNumber: size },
    })
    const rows = Array.from({ length: size }, (_, i) => `${i + 1},4,${i % 50 === 7 ? '-1.1' : '3'},pass,pass,AT-1`)
    const text = ['position,crosstalk margin,return loss margin,wire map,visual,tester serial', ...rows].join('\n')
    await sendFile(db, inspector, lotId, text)
    const { drawn } = await replayed(await supplierWith([lotId]), '10', 0)
    const chance = Array.from({ length: 10 }, (_, i) => (450 - i) / (500 - i)).reduce(
      (product, each) => product * each,
      1,
    )
    expect(drawn.lots[0]).toMatchObject({ sampleSize: 50, nonconforming: 10, acceptance: expect.closeTo(chance, 12) })
    expect(chance).toBeCloseTo(0.34516, 5)
  })
})

describe('the grid of a lot', () => {
  test('shows every cord in its state and one sample by the percentage, which the seed fixes', async () => {
    const lotId = await drawnLot(db, three, every)
    for (const position of await toTest(db, lotId)) {
      const entry = position % 6 === 0 ? failing : position % 6 === 1 ? { ...clear, crosstalkMargin: '0.9' } : clear
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...entry })
    }
    const grid = await lotGrid(db, lotId, { percent: '10', seed: 'draw 1' })
    expect(grid.states.map((state) => state[0]).join('')).toBe('mccccd'.repeat(4))
    expect(grid).toMatchObject({ size: 24, cordsInCarton: 10, nonconforming: 8, seed: 'draw 1' })
    expect(grid.sample).toHaveLength(3)
    expect(grid.foundInSample).toBe(grid.sample.filter((position) => position % 6 < 2).length)
    expect(await lotGrid(db, lotId, { percent: '10', seed: 'draw 1' })).toEqual(grid)
    const samples = await Promise.all(['draw 2', 'draw 3'].map((seed) => lotGrid(db, lotId, { percent: '10', seed })))
    expect(new Set([grid, ...samples].map((each) => each.sample.join())).size).toBeGreaterThan(1)
  })

  test('is refused of a lot that was not tested whole', async () => {
    await expect(lotGrid(db, await tested(0), { percent: '10', seed: 's' })).rejects.toMatchObject({ kind: 'conflict' })
    await expect(lotGrid(db, 999_999, { percent: '10', seed: 's' })).rejects.toMatchObject({ kind: 'missing' })
  })
})
