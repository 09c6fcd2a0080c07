// The first fetch through the verbs: its cords are the first picks of the draw, tested first, and go on where the plan has its verdict.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import type { ChosenPlan } from '../../app/lots/acts/write-plan.ts'
import { benchOf } from '../../app/lots/bench.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { type CordFacts, drawnInOrder } from '../../app/lots/record/pick-list.ts'
import { drawUnits } from '../../app/statistics/draw.ts'
import { brokenInvariants } from '../../db/invariants.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, failing, recordAll, sendFile, signature } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { takeReserve } from '../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

// 24 cords, level II, 10 %: letter C. MIL-STD-105E (1989), Tables I and II-A, read: 5 cords, 1 may fail.
const terms = { acceptanceQualityLimit: '10' }
const none: ChosenPlan = { kind: 'zero-acceptance', sampleSize: 12, acceptanceNumber: 0 }
const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber: number) => ({
  ...{ sampleSize, acceptanceNumber, rejectionNumber },
})
const double: ChosenPlan = { kind: 'double', stages: [stage(3, 0, 2), stage(9, 1, 2)] }
const seed = '314159265358979323846264338327'
const drawn = (plan: ChosenPlan) => drawnLot(db, three, { plan, terms, seed })
const picks = drawUnits({ lotSize: 24, sampleSize: 12, seed })
const sorted = (positions: number[]) => positions.toSorted((one, other) => one - other)
const positionsOf = (cords: CordFacts[]) => cords.map(({ position }) => position)
const enter = (lotId: number, position: number, entry = clear) =>
  recordResult(db, inspector, lotId, { key: randomUUID(), position, ...entry })
const nextAt = async (lotId: number, after = 0) =>
  (await benchOf(db, inspector, lotId, { after, showLast: after > 0 })).cord?.position
const fetchOf = async (lotId: number) => (await factsOf(db, lotId)).firstFetch

/** Goes to the bench again and again, as the inspector does: the cords in the order in which it asks for them. */
async function atTheBench(lotId: number, failingAt: number[] = [], stopAfter = 24): Promise<number[]> {
  const walked: number[] = []
  for (let next = await nextAt(lotId); next !== undefined && walked.length < stopAfter; ) {
    await enter(lotId, next, failingAt.includes(walked.length) ? failing : clear)
    walked.push(next)
    next = await nextAt(lotId, next)
  }
  return walked
}

describe('the walk', () => {
  test('begins with the first picks, sorted, on the list and at the bench; the others follow, sorted too', async () => {
    const lotId = await drawn(none)
    const order = [...sorted(picks.slice(0, 5)), ...sorted(picks.slice(5))]
    const cords = await drawnInOrder(db, lotId)
    expect(positionsOf(cords)).toEqual(order)
    expect(cords.map(({ firstFetch }) => firstFetch)).toEqual([...Array(5).fill(true), ...Array(7).fill(false)])
    expect(positionsOf(await drawnInOrder(db, lotId, { after: order[2] ?? 0, atMost: 4 }))).toEqual(order.slice(3, 7))
    expect(await atTheBench(lotId)).toEqual(order)
  })

  test('goes stage by stage where the plan has several, the first picks of each stage before its others', async () => {
    const lotId = await drawn(double)
    const order = [...sorted(picks.slice(0, 3)), ...sorted(picks.slice(3, 5)), ...sorted(picks.slice(5, 9))]
    expect(positionsOf(await drawnInOrder(db, lotId))).toEqual(order)
    expect(await atTheBench(lotId, [0])).toEqual(order) // one found: the second sample is needed
  })

  test('of every cord is one walk, as none is left out by a stop', async () => {
    const lotId = await drawn({ kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 })
    expect(positionsOf(await drawnInOrder(db, lotId))).toEqual(Array.from({ length: 24 }, (_, at) => at + 1))
  })
})

describe('the plan that has its verdict', () => {
  test('leaves the first fetch open, which goes on to its end; then the lot is the manager’s', async () => {
    const lotId = await drawn(none)
    await atTheBench(lotId, [0], 1)
    const rejected = await factsOf(db, lotId)
    expect(rejected).toMatchObject({ verdict: 'reject', next: { act: 'test' }, firstFetch: { open: true, left: 4 } })
    const rest = sorted(picks.slice(0, 5)).slice(1)
    expect(await atTheBench(lotId, [], 4)).toEqual(rest)
    expect(await factsOf(db, lotId)).toMatchObject({
      next: { act: 'decide' },
      firstFetch: { recorded: 5, found: 1, verdict: 'accept', open: false },
    })
  })

  test('and the standard’s own rejection number end it', async () => {
    const lotId = await drawn(none)
    await atTheBench(lotId, [0, 1], 2)
    expect(await factsOf(db, lotId)).toMatchObject({
      next: { act: 'decide' },
      firstFetch: { recorded: 2, found: 2, verdict: 'reject', open: false, left: 3 },
    })
  })

  test('by accepting early still leaves the first picks of the later stage to be tested, and no other of it', async () => {
    const lotId = await drawn(double)
    const order = [...sorted(picks.slice(0, 3)), ...sorted(picks.slice(3, 5))]
    await atTheBench(lotId, [], 3)
    expect(await factsOf(db, lotId)).toMatchObject({
      verdict: 'accept',
      progress: { toDo: 2 },
      firstFetch: { open: true, left: 2 },
    })
    await expect(enter(lotId, picks[5] ?? 0)).rejects.toMatchObject({ code: 'cord/after-verdict' })
    expect(await atTheBench(lotId)).toEqual(order.slice(3))
    expect(await factsOf(db, lotId)).toMatchObject({ next: { act: 'decide' }, firstFetch: { verdict: 'accept' } })
    const [stages] = await owner`select count(*)::int as tested from results where lot_id = ${lotId}`
    expect(stages).toEqual({ tested: 5 })
  })

  test('lets a file bring the first picks of a later stage', async () => {
    const lotId = await drawn(double)
    const head = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
    const rows = picks.slice(0, 5).map((position) => `${position},4.1,3.7,in order,in order,T-204`)
    const refused = await sendFile(
      db,
      inspector,
      lotId,
      [head, ...rows, `${picks[5]},4.1,3.7,in order,in order,T-204`].join('\n'),
    )
    expect(refused).toMatchObject({ kind: 'refused', bad: { inAll: 1 } })
    expect(await sendFile(db, inspector, lotId, [head, ...rows].join('\n'))).toMatchObject({ count: 5 })
  })
})

describe('the counts', () => {
  test('take a stand-in, and a stand-in of a stand-in, in the place of the pick', async () => {
    const lotId = await drawn(none)
    let position = picks[2] ?? 0
    for (let again = 0; again < 2; again++) {
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, kind: 'gone', note: 'gone' })
      // not complete before the manager has ruled
      expect(await fetchOf(lotId)).toMatchObject({ recorded: 0, found: 0, undecided: 1, open: true })
      position = await takeReserve(db, manager, lotId, { key: randomUUID(), position })
      expect(await fetchOf(lotId)).toMatchObject({ recorded: 0, found: 0, undecided: 0 })
    }
    await enter(lotId, position, failing)
    expect(await fetchOf(lotId)).toMatchObject({ recorded: 1, found: 1, open: true })
    expect(positionsOf((await drawnInOrder(db, lotId)).filter(({ firstFetch }) => firstFetch))).toContain(position)
    await enter(lotId, picks[7] ?? 0, failing)
    expect(await fetchOf(lotId)).toMatchObject({ recorded: 1, found: 1 })
  })

  test('are completed by a screening, which tests all that was left', async () => {
    const lotId = await drawn(none)
    await atTheBench(lotId, [0], 1)
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'screened' })
    expect(await fetchOf(lotId)).toMatchObject({ recorded: 1, verdict: 'not known' })
    await recordAll(db, three, lotId)
    expect(await fetchOf(lotId)).toMatchObject({ recorded: 5, found: 1, verdict: 'accept' })
  })

  test('hold, as everything else, over all of these lots', async () => {
    expect(await brokenInvariants(owner)).toEqual([])
  })
})

test('a draw with fewer cords than the standard’s plan has no first fetch to go on with, and no verdict', async () => {
  const lotId = await drawn({ kind: 'zero-acceptance', sampleSize: 4, acceptanceNumber: 0 })
  await recordAll(db, three, lotId)
  expect(await factsOf(db, lotId)).toMatchObject({
    next: { act: 'decide' },
    firstFetch: { verdict: 'not known', left: undefined, open: false, first: false },
  })
})
