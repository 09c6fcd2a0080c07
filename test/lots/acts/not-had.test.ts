// Drawn cords that cannot be had: damaged, not in their place, gone or spoiled here, up to the decision.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { recountLot } from '../../../app/lots/acts/recount.ts'
import { ruleOnCord } from '../../../app/lots/acts/rule-on-cord.ts'
import { frozenEvidence, rowsAreAsSigned } from '../../../app/lots/evidence/read.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { brokenInvariants } from '../../../db/invariants.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, failing, recordAll, signature, toTest } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'
import { countAgainst, takeReserve } from '../../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

type Kind = 'damaged' | 'gone' | 'spoiled'
const put = (lotId: number, position: number, kind: Kind = 'gone') =>
  recordResult(db, inspector, lotId, { key: randomUUID(), position, kind, note: 'as it lay there' })
const recount = (lotId: number, position: number, size: number) =>
  recountLot(db, inspector, lotId, { key: randomUUID(), position, size, reason: 'the carton has one less' })
const first = async (lotId: number) => (await toTest(db, lotId))[0] ?? 0
const decide = async (lotId: number, outcome: 'accepted' | 'returned' | 'screened', reason = 'seen') =>
  decideLot(db, manager, lotId, { ...(await signature(db, lotId)), reason, outcome })

describe('a cord too damaged to test', () => {
  test('does not conform, by its visual inspection, and leaves the draw what it was', async () => {
    const lotId = await drawnLot(db, three)
    const judged = await put(lotId, await first(lotId), 'damaged')
    expect(judged).toMatchObject({ state: 'does-not-conform', nonconforming: true })
    expect(await factsOf(db, lotId)).toMatchObject({
      progress: { sampleRecorded: 1, sampleNonconforming: 1 },
      drawIntegrity: { kind: 'kept' },
    })
    const [row] = await owner`select visual, visual_at_fault, not_tested from results join tallies using (lot_id)
      where lot_id = ${lotId}`
    expect(row).toEqual({ visual: 'at-fault', visual_at_fault: 1, not_tested: 0 })
  })
})

describe('an empty place', () => {
  test('is a recount: the plan stays, a reserve takes the place, the bounds are of the cords that are there', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    const reserve = await recount(lotId, position, 23)
    await recordAll(db, three, lotId)
    const facts = await factsOf(db, lotId)
    // 23 cords, 6 drawn, none found: 7, recomputed with whole numbers in Python; of 24 it would be 8
    expect(facts).toMatchObject({
      size: 24,
      cords: 23,
      plan: { sampleSize: 6 },
      verdict: 'accept',
      drawIntegrity: { kind: 'kept' },
      bounds: { lotSize: 23, upperInLot: 7 },
      notHad: { recounts: [{ position, size: 23, standIn: reserve, by: inspector.name }] },
    })
    await decide(lotId, 'accepted')
    const evidence = await frozenEvidence(db, lotId, 'sample')
    expect(evidence).toMatchObject({ version: 2, lot: { size: 24, recountedSize: 23 }, proof: { upperInLot: 7 } })
    expect(await rowsAreAsSigned(db, evidence)).toBe(true)
    expect((await factsOf(db, lotId)).balance).toEqual({ received: 24, kept: 23, sentBack: 0, missing: 1 })
  })

  test('leaves the sample smaller where every place is drawn, and ends a screening like another entry', async () => {
    const every = { kind: 'every-cord', sampleSize: 3, acceptanceNumber: 3 } as const
    const whole = await drawnLot(db, three, { size: 3, plan: every })
    expect(await recount(whole, 2, 2)).toBe(2)
    await recordAll(db, three, whole)
    expect(await factsOf(db, whole)).toMatchObject({ verdict: 'accept', cords: 2, bounds: { untested: 0 } })
    const lotId = await drawnLot(db, three)
    await recordAll(db, three, lotId, 2)
    await decide(lotId, 'screened')
    const [rest = 0, more = 0] = await toTest(db, lotId)
    await recount(lotId, rest, 23)
    await put(lotId, more, 'gone')
    await recordAll(db, three, lotId)
    expect(await factsOf(db, lotId)).toMatchObject({ state: 'screened', notHad: { undecided: [] } })
  })

  test('is counted as places and cords allow, once, and its entry is closed', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    for (const size of [24, 0])
      await expect(recount(lotId, position, size)).rejects.toMatchObject({ code: 'recount/size' })
    await expect(
      recountLot(db, inspector, lotId, { key: randomUUID(), position, size: 23, reason: ' ' }),
    ).rejects.toMatchObject({ code: 'recount/reason' })
    const both = await Promise.allSettled([recount(lotId, position, 23), recount(lotId, position, 23)])
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    const correction = { key: randomUUID(), position, entryNumber: 1, reason: 'found it', ...clear }
    await expect(correctResult(db, inspector, lotId, correction)).rejects.toMatchObject({ code: 'correction/closed' })
  })
})

describe('a cord that is gone or spoiled here', () => {
  test('stops nothing and lets nothing be accepted; both bounds stand, and only a return may be signed', async () => {
    const lotId = await drawnLot(db, three, { plan: { kind: 'single', sampleSize: 6, acceptanceNumber: 0 } })
    const position = await first(lotId)
    await put(lotId, position)
    expect(await factsOf(db, lotId)).toMatchObject({ verdict: undefined, next: { act: 'test' }, progress: { toDo: 5 } })
    await recordAll(db, three, lotId)
    // 24 cords, 6 drawn, 0 or 1 found: 8 or 12, recomputed with whole numbers in Python
    expect(await factsOf(db, lotId)).toMatchObject({
      verdict: undefined,
      next: { act: 'rule', role: 'manager' },
      bothAnswers: { ifConforming: 8, ifNonconforming: 12 },
    })
    await expect(decide(lotId, 'accepted')).rejects.toMatchObject({ code: 'decision/sample-incomplete' })
    const failed = { key: randomUUID(), position: (await tested(lotId))[0] ?? 0, entryNumber: 1, reason: 'misread' }
    await correctResult(db, inspector, lotId, { ...failing, ...failed })
    for (const outcome of ['accepted', 'screened'] as const)
      await expect(decide(lotId, outcome)).rejects.toMatchObject({ code: 'decision/undecided' })
    await decide(lotId, 'returned')
    const evidence = await frozenEvidence(db, lotId, 'sample')
    expect(evidence).toMatchObject({
      notHad: { undecided: [{ position, kind: 'gone' }] },
      bothAnswers: { undecided: 1 },
    })
    expect(await rowsAreAsSigned(db, evidence)).toBe(true)
  })

  test('is ruled on once, by who did not report it, with a reason, beside what was known', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    await put(lotId, position, 'spoiled')
    await recordAll(db, three, lotId, 1)
    const ruling = { key: randomUUID(), position, entryNumber: 1, ruling: 'reserve', reason: 'the truck' } as const
    await expect(ruleOnCord(db, manager, lotId, { ...ruling, reason: '' })).rejects.toMatchObject({ field: 'reason' })
    await expect(ruleOnCord(db, manager, lotId, { ...ruling, entryNumber: 2 })).rejects.toMatchObject({
      code: 'ruling/corrected-since',
    })
    await ruleOnCord(db, manager, lotId, ruling)
    expect(await factsOf(db, lotId)).toMatchObject({
      notHad: { undecided: [], rulings: [{ ruling: 'reserve', known: { recorded: 5, found: 1, undecided: 1 } }] },
      drawIntegrity: { kind: 'broken', standIns: 1 },
    })
    await expect(countAgainst(db, manager, lotId, position)).rejects.toMatchObject({ code: 'ruling/not-needed' })
  })

  test('may turn up before it is ruled on, and not after', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    await put(lotId, one)
    await put(lotId, two)
    const found = (position: number) =>
      correctResult(db, inspector, lotId, { key: randomUUID(), position, entryNumber: 1, reason: 'found', ...clear })
    await found(one)
    await countAgainst(db, manager, lotId, two)
    await expect(found(two)).rejects.toMatchObject({ code: 'correction/ruled' })
    expect((await factsOf(db, lotId)).progress).toMatchObject({ sampleRecorded: 2, sampleNonconforming: 1 })
  })

  test('counts at once where the frozen plan says so', async () => {
    const lotId = await drawnLot(db, three, { terms: { undecidedCounts: 'nonconforming' } })
    const position = await first(lotId)
    await put(lotId, position)
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ progress: { sampleRecorded: 1, sampleNonconforming: 1 }, notHad: { undecided: [] } })
    const late = takeReserve(db, manager, lotId, { key: randomUUID(), position })
    await expect(late).rejects.toMatchObject({ code: 'ruling/not-needed' })
  })
})

test('every rule of the record holds over all of these lots', async () => {
  expect(await brokenInvariants(owner)).toEqual([])
})

/** Positions of the lot's tested cords. */
async function tested(lotId: number): Promise<number[]> {
  const rows = await owner<
    { position: number }[]
  >`select position from results where lot_id = ${lotId} and kind = 'tested'`
  return rows.map(({ position }) => position)
}
