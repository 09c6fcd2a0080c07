// A lot that goes cord by cord in groups: from the frozen plan over two groups to the decision, its bounds and its evidence.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { freezePlan } from '../../app/lots/acts/freeze-plan.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { frozenEvidence, rowsAreAsSigned } from '../../app/lots/evidence/read.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../app/lots/record/pick-list.ts'
import { freshDatabase } from '../support/database.ts'
import { choose } from '../support/exact.ts'
import { clear, drawnLot, failing, receivedLot, signature } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { aloud } from '../support/refusals.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber = acceptanceNumber + 1) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})
const groups = { kind: 'groups', stages: [stage(3, -1, 2), stage(6, 0, 2), stage(9, 1)] } as const
const wanted = { plan: groups, terms: { groupSize: 3 } }

// Positions by the published SHA-256 method, recomputed apart from the project with Python's hashlib.
const picks = [22, 19, 2, 14, 24, 13, 17, 7, 20]
const sorted = (from: number, to: number) => picks.slice(from, to).toSorted((a, b) => a - b)
const cordsOf = async (lotId: number) => (await drawnInOrder(db, lotId)).map(({ position }) => position)

async function record(lotId: number, positions: number[], fail: number[] = []): Promise<void> {
  for (const position of positions) {
    const entry = fail.includes(position) ? failing : clear
    await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...entry })
  }
}

/** Of all ways to place the nonconforming cords of a lot of 24, the share that leaves the plan at a given end or goes on. */
function chance(nonconforming: number, drawn: number, found: number): number {
  const ways = choose(nonconforming, found) * choose(24 - nonconforming, drawn - found)
  return Number(ways) / Number(choose(24, drawn))
}

describe('a group', () => {
  test('is the next picks of the one draw over the whole lot, sorted for the walk', async () => {
    const lotId = await drawnLot(db, three, wanted)
    expect(await cordsOf(lotId)).toEqual([...sorted(0, 3), ...sorted(3, 6), ...sorted(6, 9)])
    const { plan } = await factsOf(db, lotId)
    expect(plan).toMatchObject({ kind: 'groups', groupSize: 3, stages: groups.stages })
  })

  test('opens only when the one before leaves the plan without a verdict; two clear ones accept', async () => {
    const lotId = await drawnLot(db, three, wanted)
    const [first, second] = [sorted(0, 3), sorted(3, 6)]
    const next = second[0] ?? 0
    await expect(record(lotId, [next])).rejects.toMatchObject({ kind: 'conflict' })
    await record(lotId, first)
    expect(await factsOf(db, lotId)).toMatchObject({
      verdict: undefined,
      bounds: undefined,
      planProgress: { stage: 2, left: 3 },
    })
    await record(lotId, second.slice(0, 2))
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: undefined, progress: { toDo: 1 } })
    await record(lotId, second.slice(2))
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ verdict: 'accept', planProgress: { stage: 2, recorded: 6 }, next: { act: 'decide' } })
    // The best end that there is: none in six cords, as the first group cannot accept.
    let most = 0
    for (let D = 0; D <= 18; D++) if (chance(D, 6, 0) > 0.05) most = D
    expect(facts.bounds).toMatchObject({ upperInLot: most, lowerInLot: 0, untested: 18, expectedInUntested: undefined })
    await expect(record(lotId, sorted(6, 7))).rejects.toMatchObject({ kind: 'conflict' })

    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
    const evidence = await frozenEvidence(db, lotId, 'sample')
    expect(evidence.plan).toMatchObject({ kind: 'groups', groupSize: 3, stages: groups.stages })
    expect(evidence.proof).toMatchObject({ stage: 2, upperInLot: most })
    expect(await rowsAreAsSigned(db, evidence)).toBe(true)
  })

  test('that is stopped leaves its untested cords unknown, in the bound above and in the one below', async () => {
    const lotId = await drawnLot(db, three, wanted)
    const [first, second] = [sorted(0, 3), sorted(3, 6)]
    await record(lotId, first, first.slice(0, 1))
    await record(lotId, second.slice(0, 1), second)
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ verdict: 'reject', planProgress: { stage: 2, recorded: 4, found: 2, left: 2 } })
    // Above: the most with which the plan comes to its second group (0 or 1 in the first three) more than 5 times in 100; below: the
    // two that are left taken as conforming, the fewest with which so many or more are found in six, or two and more in three.
    let most = 0
    for (let D = 0; D <= 22; D++) if (chance(D, 3, 0) + chance(D, 3, 1) > 0.05) most = D
    expect(facts.bounds).toMatchObject({ leftOfSample: 2, untested: 20, lowerInLot: 2, upperInLot: most })
    expect(most).toBeLessThan(22) // not all of the untested: that the plan came so far says something
  })

  test('goes on to a third, which decides', async () => {
    const lotId = await drawnLot(db, three, wanted)
    await record(lotId, sorted(0, 3), sorted(0, 3).slice(0, 1))
    await record(lotId, sorted(3, 6))
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: undefined, planProgress: { stage: 3 } })
    await record(lotId, sorted(6, 9))
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: 'accept', planProgress: { stage: 3, found: 1 } })
  })
})

describe('what is frozen', () => {
  test.each([
    [[stage(3, -1, 2), stage(5, 1)], 'groups of 3 cords'],
    [[stage(4, -1, 2), stage(8, 1)], 'groups of 3 cords'],
    [[stage(3, 1)], 'from 2 to 5,000 groups'],
  ])('%j is no plan by groups of 3: %s', async (stages, sentence) => {
    const lotId = await receivedLot(db, three, { terms: { groupSize: 3 } })
    const { version } = await factsOf(db, lotId)
    const refused = freezePlan(db, three.officer, lotId, { version, reason: 'for the test', kind: 'groups', stages })
    await expect(aloud(refused)).rejects.toMatchObject({ field: 'stages', message: expect.stringContaining(sentence) })
  })

  test('may end with a smaller group where the lot does', async () => {
    const plan = { kind: 'groups', stages: [stage(10, 0, 3), stage(20, 1, 3), stage(24, 2)] } as const
    const lotId = await drawnLot(db, three, { plan, terms: { groupSize: 10 } })
    expect((await factsOf(db, lotId)).plan).toMatchObject({ groupSize: 10, sampleSize: 24 })
  })

  test('is held together by the database: kind and size of the groups, and every group of that size', async () => {
    const lotId = await drawnLot(db, three, wanted)
    const copy = (change: string) =>
      owner.unsafe(`with old as (select (to_jsonb(p) || '${change}') as row from plans p
      where lot_id = ${lotId}) insert into plans select (jsonb_populate_record(null::plans, row)).* from old`)
    const broken = { constraint_name: 'plans_group_size' }
    await expect(copy('{"kind": "sequential"}')).rejects.toMatchObject(broken)
    await expect(copy('{"group_size": 1}')).rejects.toMatchObject({ constraint_name: 'plans_groups_of_their_size' })
    await expect(copy('{"group_size": 4}')).rejects.toMatchObject({ constraint_name: 'plans_groups_of_their_size' })
    await expect(copy('{"group_size": null}')).rejects.toThrow()
  })
})
