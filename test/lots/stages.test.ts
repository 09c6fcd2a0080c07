// A lot under a plan of several stages, from the frozen plan to the decision, through the domain's own verbs.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { lotsWaiting } from '../../app/desk/work-list.ts'
import { closeLot } from '../../app/lots/acts/close.ts'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { frozenEvidence } from '../../app/lots/evidence/read.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { drawnInOrder, nextToTest } from '../../app/lots/record/pick-list.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, failing, recordAll, sendFile, signature } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { aloud } from '../support/refusals.ts'
import { takeReserve } from '../support/ruling.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

const conflict = { name: 'Refusal', kind: 'conflict' }
const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber = acceptanceNumber + 1) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})

// Positions by the published SHA-256 method, recomputed apart from the project with Python's hashlib.
const picks = [22, 19, 2, 14, 24, 13]
const double = { kind: 'double', stages: [stage(3, 0, 2), stage(6, 1)] } as const
const oneByOne = {
  kind: 'sequential',
  stages: [stage(1, -1, 2), stage(2, -1, 2), stage(3, -1, 2), stage(4, 0, 2), stage(5, 0, 2), stage(6, 1)],
} as const

const cordsOf = async (lotId: number) => (await drawnInOrder(db, lotId)).map(({ position }) => position)
const enter = (lotId: number, position: number, entry = clear) =>
  recordResult(db, inspector, lotId, { key: randomUUID(), position, ...entry })

/** Records cords in walking order, the failing ones named. */
async function record(lotId: number, positions: number[], fail: number[] = []): Promise<void> {
  for (const position of positions) await enter(lotId, position, fail.includes(position) ? failing : clear)
}

describe('the draw', () => {
  test('is one, whose first picks are the first sample; one walks sample after sample, carton after carton', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await drawnInOrder(db, lotId)
    expect(cords.map(({ position, stage }) => [position, stage])).toEqual([
      ...picks
        .slice(0, 3)
        .toSorted((a, b) => a - b)
        .map((position) => [position, 1]),
      ...picks
        .slice(3)
        .toSorted((a, b) => a - b)
        .map((position) => [position, 2]),
    ])
    const leaf = await drawnInOrder(db, lotId, { after: cords[1]?.position ?? 0, atMost: 2 })
    expect(leaf).toEqual(cords.slice(2, 4))
  })

  test('is walked in its own order where a verdict may fall after every cord', async () => {
    const lotId = await drawnLot(db, three, { plan: oneByOne })
    expect(await cordsOf(lotId)).toEqual(picks)
    expect((await factsOf(db, lotId)).progress.toDo).toBe(1)
  })
})

describe('the verdict', () => {
  test('falls with the first sample where that is clear; the second is then not tested', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const [one = 0, two = 0, three_ = 0, four = 0] = await cordsOf(lotId)
    await expect(enter(lotId, four)).rejects.toMatchObject(conflict)
    await record(lotId, [one, two])
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: undefined, progress: { toDo: 1 }, bounds: undefined })
    await record(lotId, [three_])
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ verdict: 'accept', progress: { toDo: 0 }, next: { act: 'decide' } })
    // By hand: accepted by the first sample while C(24 − D, 3) / C(24, 3) > 0.05, so up to D = 14 (0.0593; 15 gives 0.0415).
    expect(facts.bounds).toMatchObject({
      stage: 1,
      upperInLot: 14,
      lowerInLot: 0,
      untested: 21,
      expectedInUntested: undefined,
    })
    await expect(aloud(enter(lotId, four))).rejects.toMatchObject({
      ...conflict,
      message: expect.stringContaining('verdict'),
    })
    const line = (await lotsWaiting(db)).waiting.flatMap(({ lots }) => lots).find(({ id }) => id === lotId)
    expect(line).toMatchObject({ verdict: 'accept', recorded: 3, toRecord: 3 })

    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
    expect((await factsOf(db, lotId)).decision).toMatchObject({
      verdict: 'accept',
      recorded: 3,
      found: 0,
      upperInLot: 14,
    })
    const evidence = await frozenEvidence(db, lotId, 'sample')
    expect(evidence.plan.stages).toEqual(double.stages)
    expect(evidence.proof).toMatchObject({ stage: 1, upperInLot: 14 })
  })

  test('falls with the second where the first leaves doubt', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await cordsOf(lotId)
    await record(lotId, cords.slice(0, 3), cords.slice(1, 2))
    expect(await factsOf(db, lotId)).toMatchObject({
      verdict: undefined,
      planProgress: { stage: 2 },
      progress: { toDo: 3 },
    })
    expect(await nextToTest(db, lotId, cords[5], { stage: 2 })).toMatchObject({ position: cords[3] })
    await record(lotId, cords.slice(3, 5), cords.slice(4, 5))
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ verdict: 'reject', progress: { toDo: 1 }, rejectedSince: { position: cords[4] } })
    expect(facts.bounds).toMatchObject({
      stage: 2,
      recorded: 5,
      found: 2,
      leftOfSample: 1,
      expectedInUntested: undefined,
    })
    await record(lotId, cords.slice(5)) // one may stop, and need not
    expect((await factsOf(db, lotId)).bounds).toMatchObject({ recorded: 6, leftOfSample: 0 })
  })

  test('falls after any cord, cord by cord', async () => {
    const lotId = await drawnLot(db, three, { plan: oneByOne })
    await record(lotId, picks.slice(0, 4))
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: 'accept', planProgress: { stage: 4, recorded: 4 } })
    const other = await drawnLot(db, three, { plan: oneByOne })
    await record(other, picks.slice(0, 3), [22, 2])
    expect(await factsOf(db, other)).toMatchObject({
      verdict: 'reject',
      planProgress: { stage: 3 },
      rejectedSince: { position: 2 },
    })
  })

  test('counts a stand-in to the stage of the cord that it replaces, and so on', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const [one = 0, ...more] = (await cordsOf(lotId)).slice(0, 3)
    await record(lotId, more)
    let missing = one
    for (let times = 0; times < 2; times++) {
      await recordResult(db, inspector, lotId, {
        key: randomUUID(),
        position: missing,
        kind: 'gone',
        note: 'not there',
      })
      // had it conformed, the plan would have accepted; had it not, it would go on with the second sample, and so does the bench
      expect(await factsOf(db, lotId)).toMatchObject({
        verdict: undefined,
        planProgress: { stage: 1, found: 0, left: 1 },
        testedStage: 2,
        progress: { toDo: 3 },
      })
      missing = await takeReserve(db, manager, lotId, { key: randomUUID(), position: missing })
      expect(await factsOf(db, lotId)).toMatchObject({ verdict: undefined, planProgress: { stage: 1, left: 1 } })
    }
    expect((await drawnInOrder(db, lotId)).find(({ position }) => position === missing)?.stage).toBe(1)
    await record(lotId, [missing])
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: 'accept', planProgress: { stage: 1, recorded: 3 } })
  })

  test('goes by what a correction left, and is silent on cords that were tested after it', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await cordsOf(lotId)
    const doubted = cords[0] ?? 0
    await record(lotId, cords, [doubted])
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: 'accept', planProgress: { stage: 2 } })
    const correction = { key: randomUUID(), position: doubted, entryNumber: 1, reason: 'read the wrong line' }
    await correctResult(db, inspector, lotId, { ...correction, ...clear })
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      verdict: 'accept',
      planProgress: { stage: 1, recorded: 3 },
      progress: { sampleRecorded: 6 },
    })
    expect(facts.bounds).toMatchObject({ recorded: 6, found: 0, upperInLot: 14, untested: 18 })
  })
})

describe('a file of results', () => {
  const line = (position: number, margin = '3.1') => `${position},${margin},2.2,in order,in order,T 1`
  const head = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
  const send = (lotId: number, lines: string[]) => sendFile(db, inspector, lotId, [head, ...lines].join('\n'))

  test('may hold the second sample where the first in it leaves doubt', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const [one = 0, ...more] = await cordsOf(lotId)
    expect(await send(lotId, [line(one, '-0.3'), ...more.map((position) => line(position))])).toMatchObject({
      count: 6,
    })
    expect((await factsOf(db, lotId)).verdict).toBe('accept')
  })

  test('is refused whole, row by row, where it does not', async () => {
    const lotId = await drawnLot(db, three, { plan: double })
    const cords = await cordsOf(lotId)
    const refused = await send(
      lotId,
      cords.map((position) => line(position)),
    )
    expect(refused).toMatchObject({
      kind: 'refused',
      bad: { inAll: 3, named: [{ line: 5 }, { line: 6 }, { line: 7 }] },
    })
    expect((await factsOf(db, lotId)).progress.sampleRecorded).toBe(0)
    expect(
      await send(
        lotId,
        cords.slice(0, 3).map((position) => line(position)),
      ),
    ).toMatchObject({ count: 3 })
  })
})

test('a screening after an early verdict is walked carton after carton, and held against what the plan’s end foretold', async () => {
  const lotId = await drawnLot(db, three, { plan: double })
  await record(lotId, (await cordsOf(lotId)).slice(0, 3))
  const signed = await signature(db, lotId, 'the supplier changed its plugs')
  await decideLot(db, manager, lotId, { ...signed, outcome: 'screened' })
  const cords = await cordsOf(lotId)
  expect(cords).toEqual(Array.from({ length: 24 }, (_, index) => index + 1))
  await recordAll(db, three, lotId, 4)
  const facts = await factsOf(db, lotId)
  expect(facts.state).toBe('screened')
  await closeLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'returned' })
  expect((await drawnInOrder(db, lotId, { after: 20, atMost: 9 })).map(({ position }) => position)).toEqual([
    21, 22, 23, 24,
  ])
  expect(facts.prediction).toMatchObject({
    recorded: 3,
    remainder: 21,
    lower: 0,
    upper: 14,
    observed: 4,
    covered: true,
  })
})
