// Entries corrected in the open, and cords replaced only by the draw.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { cordOf } from '../../../app/lots/record/cord.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../../app/lots/record/pick-list.ts'
import type { Entry } from '../../../app/lots/rules/entry.ts'
import { findingSentence } from '../../../views/words/findings.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, failing, recordAll, toTest } from '../../support/lot.ts'
import { addTo, threePeople } from '../../support/people.ts'
import { countAgainst, takeReserve } from '../../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three
const second = await addTo(db, 'Ina Inspector', 'inspector')

const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })
const missing: Entry = { kind: 'gone', note: 'the rack was cleared' }
const put = (lotId: number, position: number, entry: Entry, key = randomUUID(), who = inspector) =>
  recordResult(db, who, lotId, { key, position, ...entry })
const first = async (lotId: number) => (await toTest(db, lotId))[0] ?? 0

describe('a correction', () => {
  test('replaces the entry, keeps the first one with the reason, and is counted', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    await put(lotId, position, failing)
    const correction = { key: randomUUID(), position, entryNumber: 1, reason: 'a 3 read as a −0', ...clear }
    expect(await correctResult(db, second, lotId, correction)).toMatchObject({ state: 'conforms' })
    expect(await correctResult(db, second, lotId, correction)).toMatchObject({ state: 'conforms' }) // the same form again
    const cord = await cordOf(db, lotId, position)
    expect(cord.result).toMatchObject({ entry: 2, reading: clear, recordedBy: second.name })
    expect(cord.earlier).toMatchObject([
      {
        entry: 1,
        reading: failing,
        state: 'does-not-conform',
        recordedBy: inspector.name,
        correctedBy: second.name,
        correctionReason: 'a 3 read as a −0',
      },
    ])
    expect((await factsOf(db, lotId)).progress).toMatchObject({ sampleRecorded: 1, sampleNonconforming: 0 })
    await expect(owner`update earlier_results set note = 'x'`).rejects.toMatchObject({
      constraint_name: 'written_once',
    })
  })

  test('takes a verdict back where it takes the count back', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    await put(lotId, one, failing)
    await put(lotId, two, failing)
    await correctResult(db, inspector, lotId, {
      key: randomUUID(),
      position: two,
      entryNumber: 1,
      reason: 'misread',
      ...clear,
    })
    expect((await factsOf(db, lotId)).verdict).toBeUndefined()
  })

  test('needs a reason, an entry, and the entry that was seen', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    await put(lotId, one, failing)
    const correct = (change: object) =>
      correctResult(db, inspector, lotId, {
        key: randomUUID(),
        position: one,
        entryNumber: 1,
        reason: 'misread',
        ...clear,
        ...change,
      })
    await expect(correct({ reason: ' ' })).rejects.toMatchObject(invalid('reason'))
    await expect(correct({ reason: 'x'.repeat(501) })).rejects.toMatchObject(invalid('reason'))
    await expect(correct({ crosstalkMargin: undefined })).rejects.toMatchObject(invalid('crosstalkMargin'))
    await expect(correct({ position: two })).rejects.toMatchObject(invalid('position'))
    const longest = 'x'.repeat(500)
    const both = await Promise.allSettled([
      correct({ reason: longest }),
      correct({ visual: 'at-fault', reason: longest }),
    ])
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected'])
    await expect(correct({})).rejects.toMatchObject(conflict)
    expect((await cordOf(db, lotId, one)).earlier).toHaveLength(1)
  })
})

describe('a cord that is gone or spoiled here', () => {
  test('counts as nonconforming once it is ruled so, and says that it was not tested', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    const { findings, ...judged } = await put(lotId, position, missing)
    expect(judged).toEqual({ state: 'not-tested', nonconforming: true })
    expect(findings.map(findingSentence)).toEqual(['The cord is gone: the rack was cleared'])
    await countAgainst(db, manager, lotId, position)
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      drawIntegrity: { kind: 'broken', standIns: 0, notTested: 1 },
      progress: { sampleNonconforming: 1 },
    })
  })

  test('is replaced by the next pick of the recorded draw, and both stay on the record', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0] = await toTest(db, lotId)
    await put(lotId, one, missing)
    const key = randomUUID()
    const standIns = await Promise.all([1, 2].map(() => takeReserve(db, manager, lotId, { key, position: one })))
    // The seventh pick of the seed, recomputed apart from the project with Python's hashlib.
    expect(standIns).toEqual([17, 17])
    const facts = await factsOf(db, lotId)
    expect(facts.progress).toMatchObject({ sampleRecorded: 0, sampleNonconforming: 0, toDo: 6 })
    expect(facts).toMatchObject({ drawIntegrity: { kind: 'broken', standIns: 1, notTested: 0 }, draw: { standIns: 1 } })
    expect(await cordOf(db, lotId, one)).toMatchObject({ replacedBy: 17, result: { reading: missing } })
    expect(await cordOf(db, lotId, 17)).toMatchObject({
      purpose: 'stand-in',
      pick: 7,
      standsInFor: one,
      result: undefined,
    })
    await expect(
      correctResult(db, inspector, lotId, {
        key: randomUUID(),
        position: one,
        entryNumber: 1,
        reason: 'found',
        ...clear,
      }),
    ).rejects.toMatchObject(conflict)
    await recordAll(db, three, lotId)
    expect((await factsOf(db, lotId)).verdict).toBe('accept')
  })

  test('may be replaced again where the reserve is spoiled too', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0] = await toTest(db, lotId)
    await put(lotId, one, missing)
    const standIn = await takeReserve(db, manager, lotId, { key: randomUUID(), position: one })
    await put(lotId, standIn, { kind: 'spoiled', note: 'a plug is crushed' })
    expect(await takeReserve(db, manager, lotId, { key: randomUUID(), position: standIn })).toBe(7)
    expect((await factsOf(db, lotId)).draw?.standIns).toBe(2)
  })

  test('is replaced only by a manager, once, and only where it was recorded as such', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    const allow = (position: number, who = manager) => takeReserve(db, who, lotId, { key: randomUUID(), position })
    await put(lotId, one, missing)
    await put(lotId, two, failing)
    for (const other of [officer, inspector]) await expect(allow(one, other)).rejects.toMatchObject(forbidden)
    await expect(allow(two)).rejects.toMatchObject(conflict)
    const both = await Promise.allSettled([allow(one), allow(one)])
    expect(both.map((each) => each.status).sort()).toEqual(['fulfilled', 'rejected'])
    await expect(allow(one)).rejects.toMatchObject(conflict)
  })

  test('has no stand-in where every cord of the lot is drawn', async () => {
    const lotId = await drawnLot(db, three, {
      size: 3,
      plan: { kind: 'every-cord', sampleSize: 3, acceptanceNumber: 3 },
    })
    const position = await first(lotId)
    await put(lotId, position, missing)
    await expect(takeReserve(db, manager, lotId, { key: randomUUID(), position })).rejects.toMatchObject(conflict)
    expect(await drawnInOrder(db, lotId)).toHaveLength(3)
  })
})
