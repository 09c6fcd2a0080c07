// What a decision rests on, and what screening leads to.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { closeLot } from '../../../app/lots/acts/close.ts'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { type DecisionChoice, decideLot } from '../../../app/lots/acts/decide.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { evidenceRows, frozenEvidence } from '../../../app/lots/evidence/read.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../../app/lots/record/pick-list.ts'
import { drawUnits } from '../../../app/statistics/draw.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, failing, recordAll, sendFile, signature, testedLot, toTest } from '../../support/lot.ts'
import { addTo, threePeople } from '../../support/people.ts'
import { takeReserve } from '../../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three
const deputy = await addTo(db, 'Milo Manager', 'manager')

const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })

const sign = (lotId: number, reason = '') => signature(db, lotId, reason)
const decide = async (lotId: number, choice: DecisionChoice, reason = '', who = manager) =>
  decideLot(db, who, lotId, { ...(await sign(lotId, reason)), ...choice })
const screenedLot = async (nonconforming: number, rest: number) => {
  const lotId = await testedLot(db, three, nonconforming)
  await decide(lotId, { outcome: 'screened' })
  await recordAll(db, three, lotId, rest)
  return lotId
}

const whole = { after: 0, atMost: 24 }
async function wholeEvidence(lotId: number) {
  const head = await frozenEvidence(db, lotId, 'sample')
  return { head, rows: await evidenceRows(db, head, whole) }
}

describe('the evidence', () => {
  test('is frozen as it was shown: inputs, plan, draw, numbers, method and every result', async () => {
    const lotId = await drawnLot(db, three, { terms: { crosstalkAccuracy: '1.20' } })
    const positions = await toTest(db, lotId)
    for (const [i, position] of positions.entries())
      await recordResult(db, inspector, lotId, {
        key: randomUUID(),
        position,
        ...(i === 2 ? failing : clear),
        spool: `S${i}`,
      })
    const shown = await factsOf(db, lotId)
    await decide(lotId, { outcome: 'accepted' })
    const frozen = await frozenEvidence(db, lotId, 'sample')
    const { plan, draw, progress: counts, drawIntegrity, verdict, bounds } = shown
    expect(frozen).toMatchObject({ plan, draw, counts, condition: drawIntegrity, verdict, proof: bounds })
    const results = await evidenceRows(db, frozen, whole)
    const { upperInLot } = frozen.proof
    expect(frozen).toMatchObject({
      lot: { id: lotId, size: 24, announcedSize: 24, productionMark: 'W31' },
      terms: { crosstalkAccuracy: '1.20', marginalPolicy: 'strict', tooMany: 3 },
      plan: { kind: 'single', sampleSize: 6, acceptanceNumber: 1, by: officer.name },
      verdict: 'accept',
      condition: { kind: 'kept' },
      proof: { confidence: 0.95, recorded: 6, found: 1 },
    })
    expect((await factsOf(db, lotId)).decision?.upperInLot).toBe(upperInLot)
    expect(results.map((cord) => cord.position)).toEqual(positions)
    expect(results[2]).toMatchObject({
      returnLossMargin: '-0.04',
      nonconforming: true,
      spool: 'S2',
      recordedBy: inspector.name,
    })
    expect(results[0]).toMatchObject({
      crosstalkMargin: '4.10',
      state: 'conforms',
      pick: results[0]?.pick,
    })
    // The seed in it draws the same cords again.
    const again = drawUnits({ lotSize: 24, sampleSize: 6, seed: frozen.draw.seed })
    expect(results.toSorted((a, b) => (a.pick ?? 0) - (b.pick ?? 0)).map((cord) => cord.position)).toEqual(again)
    expect(Object.values(frozen.method).every((sentence) => sentence.length > 40)).toBe(true)
  })

  test('stays as it was when the sample is corrected during a screening', async () => {
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'screened' })
    const before = await wholeEvidence(lotId)
    const [cord] = (await drawnInOrder(db, lotId)).filter((each) => each.result?.nonconforming)
    await correctResult(db, inspector, lotId, {
      key: randomUUID(),
      position: cord?.position ?? 0,
      entryNumber: 1,
      reason: 'misread',
      ...clear,
    })
    expect(await wholeEvidence(lotId)).toEqual(before)
    expect((await factsOf(db, lotId)).decision).toMatchObject({ found: 2, verdict: 'reject' })
    await expect(owner`update decisions set evidence = '{}'`).rejects.toMatchObject({ constraint_name: 'written_once' })
    await expect(frozenEvidence(db, lotId, 'screening')).rejects.toMatchObject({ kind: 'missing' })
  })
})

describe('screening', () => {
  test('puts all other cords on the bench, and the last result ends it', async () => {
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'screened' })
    const cords = await drawnInOrder(db, lotId)
    expect(cords.map((cord) => cord.position)).toEqual(Array.from({ length: 24 }, (_, i) => i + 1))
    expect(cords.filter((cord) => cord.purpose === 'rest')).toHaveLength(18)
    const started = await factsOf(db, lotId)
    expect(started).toMatchObject({
      state: 'screening',
      progress: { toDo: 18 },
      next: { act: 'screen', role: 'inspector' },
      balance: undefined,
    })
    expect(started.audit[0]?.action).toBe('lot.screening')
    const [last = 0, ...others] = await toTest(db, lotId)
    const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
    const text = [heading, ...others.map((position) => `${position},3,3,pass,pass,AT-1`)].join('\n')
    await sendFile(db, inspector, lotId, text)
    expect(await factsOf(db, lotId)).toMatchObject({ state: 'screening', progress: { toDo: 1 } })
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: last, ...failing })
    const ended = await factsOf(db, lotId)
    expect(ended).toMatchObject({
      state: 'screened',
      progress: { sampleRecorded: 6, sampleNonconforming: 2, restRecorded: 18, restNonconforming: 1, toDo: 0 },
      next: { act: 'close', role: 'manager' },
    })
    expect(ended.audit.map((line) => line.action)).toContain('lot.screened')
  })

  test('may end with the last row of a file', async () => {
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'screened' })
    const rows = (await toTest(db, lotId)).map((position) => `${position};3;3;pass;pass;AT-1`)
    const heading = 'position;crosstalk margin;return loss margin;wire map;visual;tester serial'
    await sendFile(db, inspector, lotId, [heading, ...rows].join('\n'))
    expect((await factsOf(db, lotId)).state).toBe('screened')
  })

  test('finishes a sample that was stopped at the rejection number', async () => {
    const lotId = await drawnLot(db, three)
    for (const position of (await toTest(db, lotId)).slice(0, 2))
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...failing })
    await decide(lotId, { outcome: 'screened' })
    expect((await factsOf(db, lotId)).progress.toDo).toBe(22)
    await recordAll(db, three, lotId)
    expect((await factsOf(db, lotId)).state).toBe('screened')
  })

  test('ends with a stand-in on the record too, and every cord counted', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0] = await toTest(db, lotId)
    await recordResult(db, inspector, lotId, {
      key: randomUUID(),
      position: one,
      kind: 'gone',
      note: 'not in its place',
    })
    await takeReserve(db, manager, lotId, { key: randomUUID(), position: one })
    await recordAll(db, three, lotId, 2)
    await decide(lotId, { outcome: 'screened' })
    await recordAll(db, three, lotId, 1)
    expect(await factsOf(db, lotId)).toMatchObject({ state: 'screened', progress: { toDo: 0 } })
    await closeLot(db, manager, lotId, { ...(await sign(lotId)), outcome: 'sorted' })
    const facts = await factsOf(db, lotId)
    expect(facts.closing).toMatchObject({ recorded: 24, found: 4, upperInLot: 4 })
    expect(facts.balance).toEqual({ received: 24, kept: 20, sentBack: 3, missing: 1 })
  })

  test('of a lot of which every cord is recorded is refused', async () => {
    const lotId = await testedLot(db, three, 2, { size: 6 })
    await expect(decide(lotId, { outcome: 'screened' })).rejects.toMatchObject(invalid('outcome'))
  })

  test.each([
    { outcome: 'sorted', kept: 21 },
    { outcome: 'returned', kept: 0 },
  ] as const)('is closed as $outcome: received is kept and sent back and missing', async ({ outcome, kept }) => {
    const lotId = await screenedLot(2, 1)
    await closeLot(db, manager, lotId, { ...(await sign(lotId)), outcome })
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      state: outcome,
      decision: { outcome: 'screened', recorded: 6, found: 2 },
      closing: { outcome, verdict: undefined, recorded: 24, found: 3, upperInLot: 3 },
      balance: { received: 24, kept, sentBack: 24 - kept, missing: 0 },
      next: undefined,
    })
    expect((await frozenEvidence(db, lotId, 'screening')).rows.count).toBe(24)
    expect(facts.audit[0]?.action).toBe(`lot.${outcome}`)
  })

  test('is closed by a manager, once, when it is finished, on the page as it is', async () => {
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'screened' })
    const close = async (who = manager, change = {}) =>
      closeLot(db, who, lotId, { ...(await sign(lotId)), outcome: 'sorted', ...change })
    await expect(close()).rejects.toMatchObject(conflict)
    await recordAll(db, three, lotId)
    for (const other of [officer, inspector]) await expect(close(other)).rejects.toMatchObject(forbidden)
    await expect(close(manager, { password: 'three other words' })).rejects.toMatchObject(invalid('password'))
    await expect(close(manager, { version: 1 })).rejects.toMatchObject(conflict)
    const both = await Promise.allSettled([close(manager), close(deputy)])
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected'])
  })

  test('leaves entries open to correction until it is closed', async () => {
    const lotId = await screenedLot(2, 1)
    const cord = (await drawnInOrder(db, lotId)).find((each) => each.purpose === 'rest' && each.result?.nonconforming)
    const correction = { key: randomUUID(), position: cord?.position ?? 0, entryNumber: 1, reason: 'misread', ...clear }
    await correctResult(db, inspector, lotId, correction)
    expect(await factsOf(db, lotId)).toMatchObject({ state: 'screened', progress: { restNonconforming: 0 } })
  })
})

describe('every cord by plan', () => {
  const plan = { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } as const

  test('has its verdict when all are recorded, and then nothing is unknown', async () => {
    const lotId = await drawnLot(db, three, { plan })
    const [last = 0, ...others] = await toTest(db, lotId)
    for (const position of others) await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...failing })
    expect((await factsOf(db, lotId)).verdict).toBeUndefined()
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: last, ...clear })
    expect(await factsOf(db, lotId)).toMatchObject({
      verdict: 'accept',
      bounds: { upperInLot: 23, lowerInLot: 23, untested: 0 },
    })
    await decide(lotId, { outcome: 'accepted' })
    expect((await factsOf(db, lotId)).balance).toEqual({ received: 24, kept: 1, sentBack: 23, missing: 0 })
  })
})
