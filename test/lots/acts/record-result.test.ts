// Results of drawn cords, recorded once.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../../app/lots/acts/withdraw.ts'
import { cordOf, lastMarks } from '../../../app/lots/record/cord.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { drawnInOrder, nextToTest, nonconformingCords } from '../../../app/lots/record/pick-list.ts'
import type { Entry } from '../../../app/lots/rules/entry.ts'
import { findingSentence } from '../../../views/words/findings.ts'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, failing, plannedLot, recordAll, toTest } from '../../support/lot.ts'
import { addTo, threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three
const second = await addTo(db, 'Ina Inspector', 'inspector')

const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })
const put = (lotId: number, position: number, entry: Entry, key = randomUUID(), who = inspector) =>
  recordResult(db, who, lotId, { key, position, ...entry })
const first = async (lotId: number) => (await toTest(db, lotId))[0] ?? 0

describe('a result', () => {
  test('is judged by the frozen terms, kept digit by digit, and counted', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    expect(await put(lotId, one, clear)).toEqual({ state: 'conforms', nonconforming: false, findings: [] })
    const judged = await put(lotId, two, { ...failing, carton: ' C2 ', spool: 'S9', testerSerial: 'AT-1' })
    expect(judged).toMatchObject({ state: 'does-not-conform', nonconforming: true })
    const cord = await cordOf(db, lotId, two)
    expect(cord.result).toMatchObject({
      entry: 1,
      reading: { ...failing, carton: 'C2', spool: 'S9', testerSerial: 'AT-1' },
      recordedBy: inspector.name,
    })
    expect(cord.result?.findings.map(findingSentence)).toEqual(['Return loss is 0.04 dB short of the limit.'])
    const facts = await factsOf(db, lotId)
    expect(facts.progress).toMatchObject({ sampleRecorded: 2, sampleNonconforming: 1, toDo: 4 })
    expect(facts).toMatchObject({ verdict: undefined, bounds: undefined, rejectedSince: undefined })
    expect(await lastMarks(db, lotId, inspector.id)).toEqual({ carton: 'C2', spool: 'S9', testerSerial: 'AT-1' })
  })

  test.each([
    { entry: { ...clear, crosstalkMargin: undefined }, field: 'crosstalkMargin' },
    { entry: { ...clear, returnLossMargin: undefined }, field: 'returnLossMargin' },
    { entry: { ...clear, crosstalkMargin: '-200' }, field: 'crosstalkMargin' },
    { entry: { ...clear, returnLossMargin: 'NaN' }, field: 'returnLossMargin' },
    { entry: { ...clear, returnLossMargin: '1e3' }, field: 'returnLossMargin' },
    { entry: { ...clear, spool: 'S'.repeat(61) }, field: 'spool' },
    { entry: { kind: 'gone', note: '  ' }, field: 'note' },
    { entry: { kind: 'spoiled', note: '' }, field: 'note' },
  ] as const)('of $entry is refused at $field, and nothing is kept', async ({ entry, field }) => {
    const lotId = await drawnLot(db, three)
    await expect(put(lotId, await first(lotId), entry)).rejects.toMatchObject(invalid(field))
    expect(await toTest(db, lotId)).toHaveLength(6)
  })

  test('needs no margins where the wire map or the visual is at fault', async () => {
    const lotId = await drawnLot(db, three)
    const none = { ...clear, crosstalkMargin: undefined, returnLossMargin: undefined }
    expect(await put(lotId, await first(lotId), { ...none, wireMap: 'at-fault' })).toMatchObject({
      nonconforming: true,
    })
    expect(await put(lotId, await first(lotId), { ...none, visual: 'at-fault' })).toMatchObject({ nonconforming: true })
  })

  test('of a cord that was not drawn is refused', async () => {
    const lotId = await drawnLot(db, three)
    const drawn = await toTest(db, lotId)
    const other = [1, 2, 3, 4, 5, 6, 7].find((position) => !drawn.includes(position)) ?? 0
    for (const position of [other, 25, 0, 2_000_000])
      await expect(put(lotId, position, clear)).rejects.toMatchObject(invalid('position'))
  })

  test('is the warehouse inspector’s to record, of a lot that is drawn and not withdrawn', async () => {
    const planned = await plannedLot(db, three)
    await expect(put(planned, 1, clear)).rejects.toMatchObject(conflict)
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    for (const other of [officer, manager]) {
      await expect(put(lotId, position, clear, randomUUID(), other)).rejects.toMatchObject(forbidden)
      await expect(
        correctResult(db, other, lotId, { key: randomUUID(), position, entryNumber: 1, reason: 'x', ...clear }),
      ).rejects.toMatchObject(forbidden)
    }
    await withdrawLot(db, manager, lotId, { version: (await factsOf(db, lotId)).version, reason: 'x' })
    await expect(put(lotId, position, clear)).rejects.toMatchObject(conflict)
  })

  test('sent twice, even at once, is one result with the same answer', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    const key = randomUUID()
    const answers = await Promise.all([1, 2, 3].map(() => put(lotId, position, failing, key)))
    answers.push(await put(lotId, position, failing, key))
    for (const answer of answers) expect(answer).toEqual(answers[0])
    expect((await factsOf(db, lotId)).progress.sampleRecorded).toBe(1)
    const lines =
      await owner`select count(*)::int as lines from audit where subject = ${`lot/${lotId}/cord/${position}`}`
    expect(lines).toEqual([{ lines: 1 }])
  })

  test('sent again with other values is refused, not swallowed', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    const key = randomUUID()
    await put(lotId, one, clear, key)
    await expect(put(lotId, one, failing, key)).rejects.toMatchObject(conflict)
    await expect(put(lotId, two, clear, key)).rejects.toMatchObject(conflict)
    expect((await cordOf(db, lotId, one)).result?.reading).toEqual(clear)
  })

  test('of two inspectors at once is the first one’s, and the second is told whose', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    const both = await Promise.allSettled([
      put(lotId, position, clear, randomUUID(), inspector),
      put(lotId, position, failing, randomUUID(), second),
    ])
    const refused = both.find((one) => one.status === 'rejected')
    const standing = (await cordOf(db, lotId, position)).result
    expect(both.filter((one) => one.status === 'fulfilled')).toHaveLength(1)
    expect(refused?.reason).toMatchObject(conflict)
    expect(sentenceOf(refused?.reason)).toContain(standing?.recordedBy)
    expect((await factsOf(db, lotId)).progress).toMatchObject({
      sampleRecorded: 1,
      sampleNonconforming: standing?.recordedBy === second.name ? 1 : 0,
    })
  })

  test('twelve results of six cords at once leave each recorded once and the counts right', async () => {
    const lotId = await drawnLot(db, three)
    const positions = await toTest(db, lotId)
    const tried = positions.flatMap((position) =>
      [inspector, second].map((who) => put(lotId, position, failing, randomUUID(), who)),
    )
    const ended = await Promise.allSettled(tried)
    expect(ended.filter((one) => one.status === 'fulfilled')).toHaveLength(6)
    expect((await factsOf(db, lotId)).progress).toMatchObject({ sampleRecorded: 6, sampleNonconforming: 6, toDo: 0 })
  })

  test('twice for one cord is refused by the database too', async () => {
    const lotId = await drawnLot(db, three)
    const position = await first(lotId)
    await put(lotId, position, clear)
    await expect(
      owner`insert into results select lot_id, position, kind, crosstalk_margin, return_loss_margin, wire_map, visual, state, nonconforming, note, carton, spool, tester_serial, recorded_by from results where lot_id = ${lotId}`,
    ).rejects.toMatchObject({ code: '23505' })
  })
})

describe('the walk', () => {
  test('leads to the next cord without a result, and from the end back to the front', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0, three_ = 0, , , last = 0] = await toTest(db, lotId)
    expect(await nextToTest(db, lotId)).toMatchObject({ position: one, carton: Math.ceil(one / 10) })
    await put(lotId, two, clear)
    expect((await nextToTest(db, lotId, one))?.position).toBe(three_)
    expect((await nextToTest(db, lotId, last))?.position).toBe(one)
    await recordAll(db, three, lotId)
    expect(await nextToTest(db, lotId)).toBeUndefined()
  })

  test('can be read leaf by leaf', async () => {
    const lotId = await drawnLot(db, three)
    const all = await drawnInOrder(db, lotId)
    const leaf = await drawnInOrder(db, lotId, { after: all[1]?.position ?? 0, atMost: 2 })
    expect(leaf).toEqual(all.slice(2, 4))
  })
})

describe('the verdict', () => {
  test('rejects since the cord that exceeded the acceptance number, in the order of testing', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0, , , , last = 0] = await toTest(db, lotId)
    await put(lotId, last, failing)
    expect((await factsOf(db, lotId)).verdict).toBeUndefined()
    await put(lotId, one, clear)
    await put(lotId, two, failing)
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      verdict: 'reject',
      rejectedSince: { position: two },
      next: { act: 'decide', role: 'manager' },
    })
    expect(facts.bounds).toMatchObject({ recorded: 3, found: 2, leftOfSample: 3, expectedInUntested: undefined })
  })

  test('accepts when the sample is whole, and names what is to be taken out', async () => {
    const lotId = await drawnLot(db, three)
    await recordAll(db, three, lotId, 1)
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ verdict: 'accept', drawIntegrity: { kind: 'kept' }, progress: { toDo: 0 } })
    const out = await nonconformingCords(db, lotId)
    expect(out).toHaveLength(1)
    expect(out[0]?.result?.reading).toEqual(failing)
  })
})
