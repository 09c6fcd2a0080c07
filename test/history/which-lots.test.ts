// Which lots count where: each way that a lot can end, against rates, coverage, replay, trend and balance. Counts are those of the lots themselves, by hand.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { countedLots } from '../../app/history/counted-lots.ts'
import { coverageOf } from '../../app/history/coverage.ts'
import { alikeLots } from '../../app/history/replay/alike-lots.ts'
import { sampledCords } from '../../app/history/sampled-cords.ts'
import { trendOf } from '../../app/history/series/trend.ts'
import { runHere } from '../../app/kit/task.ts'
import { closeLot } from '../../app/lots/acts/close.ts'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { lotOf } from '../support/counted-lot.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, recordAll, signature, testedLot, toTest } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { countAgainst, takeReserve } from '../support/ruling.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three
const concession = { riskBearer: 'the buyer', use: 'one rack', cords: 24, until: '2030-01-01' }

async function decided(lotId: number, choice: DecisionChoice): Promise<number> {
  await decideLot(db, manager, lotId, { ...(await signature(db, lotId, 'for the test')), ...choice })
  return lotId
}

/** A drawn lot of which the first cord is not in its place. */
async function withOneMissing(): Promise<{ lotId: number; position: number }> {
  const lotId = await drawnLot(db, three)
  const [position = 0] = await toTest(db, lotId)
  await recordResult(db, inspector, lotId, { key: randomUUID(), position, kind: 'gone', note: 'not in its place' })
  return { lotId, position }
}

/** All the rest recorded, one of it nonconforming, and the conforming cords kept. */
async function screenedAndSorted(lotId: number): Promise<number> {
  await decided(lotId, { outcome: 'screened' })
  await recordAll(db, three, lotId, 1)
  await closeLot(db, manager, lotId, { ...(await signature(db, lotId, 'for the test')), outcome: 'sorted' })
  return lotId
}

const ways: Record<string, () => Promise<number>> = {
  accepted: async () => decided(await testedLot(db, three, 0), { outcome: 'accepted' }),
  conceded: async () => decided(await testedLot(db, three, 1), { outcome: 'conceded', concession }),
  'returned with one missing': async () => {
    const { lotId, position } = await withOneMissing()
    await recordAll(db, three, lotId)
    await countAgainst(db, manager, lotId, position)
    return decided(lotId, { outcome: 'returned' })
  },
  'screened and sorted': async () => screenedAndSorted(await testedLot(db, three, 2)),
  'screened with a substitute': async () => {
    const { lotId, position } = await withOneMissing()
    await takeReserve(db, manager, lotId, { key: randomUUID(), position })
    await recordAll(db, three, lotId, 2)
    return screenedAndSorted(lotId)
  },
  'every cord by plan': async () => {
    const plan = { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } as const
    return decided(await testedLot(db, three, 2, { plan }), { outcome: 'accepted' })
  },
  withdrawn: async () => {
    const lotId = await testedLot(db, three, 0)
    const { version } = await factsOf(db, lotId)
    await withdrawLot(db, manager, lotId, { version, reason: 'for the test' })
    return lotId
  },
}

type Counts = {
  /** lots, cords and nonconforming cords in the rates of suppliers */
  rates: [number, number, number] | undefined
  coverage: 'after screening' | 'by plan' | undefined
  replay: { known: number; leftOut: number }
  /** cords counted and found as the latest lot of a trend */
  trend: [number, number] | undefined
  balance: { received: number; kept: number; sentBack: number; missing: number } | undefined
}

const whole = { received: 24, missing: 0 }
const none = { known: 0, leftOut: 0 }
const expected: Record<string, Counts> = {
  accepted: {
    rates: [1, 6, 0],
    coverage: undefined,
    replay: none,
    trend: [6, 0],
    balance: { ...whole, kept: 24, sentBack: 0 },
  },
  conceded: {
    rates: [1, 6, 1],
    coverage: undefined,
    replay: none,
    trend: [6, 1],
    balance: { ...whole, kept: 23, sentBack: 1 },
  },
  'returned with one missing': {
    rates: [1, 6, 1],
    coverage: undefined,
    replay: none,
    trend: [6, 1],
    balance: { received: 24, kept: 0, sentBack: 23, missing: 1 },
  },
  'screened and sorted': {
    rates: [1, 6, 2],
    coverage: 'after screening',
    replay: { known: 1, leftOut: 0 },
    trend: [6, 2],
    balance: { ...whole, kept: 21, sentBack: 3 },
  },
  'screened with a substitute': {
    rates: [1, 6, 2],
    coverage: undefined,
    replay: { known: 0, leftOut: 1 },
    trend: [6, 2],
    balance: { received: 24, kept: 20, sentBack: 3, missing: 1 },
  },
  'every cord by plan': {
    rates: [1, 24, 2],
    coverage: 'by plan',
    replay: { known: 1, leftOut: 0 },
    trend: [24, 2],
    balance: { ...whole, kept: 22, sentBack: 2 },
  },
  withdrawn: {
    rates: undefined,
    coverage: undefined,
    replay: none,
    trend: undefined,
    balance: undefined,
  },
}

async function countsOf(lotId: number): Promise<Counts> {
  const { supplier, balance } = await factsOf(db, lotId)
  const sampled = (await sampledCords(db)).find(({ id }) => id === supplier.id)
  const [counted] = await countedLots(db, { supplierId: supplier.id })
  const { byPlan, afterScreening } = await coverageOf(db, runHere)
  const holds = (group: typeof byPlan) => group.lots.some((lot) => lot.lotId === lotId)
  const { known, leftOut } = await alikeLots(db, { supplierId: supplier.id })
  const before = [lotOf(1, 150, 3), lotOf(2, 150, 3)]
  const point = counted && trendOf([...before, counted], { a: 1, b: 9 })?.points.at(-1)
  return {
    rates: sampled && [sampled.lots, sampled.sampleSize, sampled.found],
    coverage: holds(byPlan) ? 'by plan' : holds(afterScreening) ? 'after screening' : undefined,
    replay: { known: known.reduce((sum, { lots }) => sum + lots, 0), leftOut },
    trend: point && [point.counted, point.found],
    balance,
  }
}

describe('which lots count where', () => {
  test.each(Object.keys(ways))('%s', async (way) => {
    const lotId = await ways[way]?.()
    expect(await countsOf(lotId ?? 0)).toEqual(expected[way])
  })
})
