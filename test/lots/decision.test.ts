// The manager's decision, its evidence, and what screening leads to.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { correctResult } from '../../app/lots/cords/amend.ts'
import { recordFile } from '../../app/lots/cords/import.ts'
import { recordResult } from '../../app/lots/cords/record.ts'
import { allowStandIn } from '../../app/lots/cords/stand-in.ts'
import { drawnInOrder } from '../../app/lots/cords/walk.ts'
import { closeLot } from '../../app/lots/decision/close.ts'
import { type Choice, decideLot } from '../../app/lots/decision/decide.ts'
import { evidenceNow, frozenEvidence } from '../../app/lots/decision/evidence.ts'
import { factsOf } from '../../app/lots/show.ts'
import { withdrawLot } from '../../app/lots/withdraw.ts'
import { drawUnits } from '../../app/statistics/draw.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, failing, recordAll, toTest, type Wanted } from '../support/lot.ts'
import { addTo, PASSWORD, threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three
const deputy = await addTo(db, 'Milo Manager', 'manager')

const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })
const terms = { riskBearer: 'P. Ostrow, data hall', use: 'low-speed desks', cords: 20, until: '2028-02-29' }

const testedLot = async (nonconforming: number, wanted: Wanted = {}) => {
  const lotId = await drawnLot(db, three, wanted)
  await recordAll(db, three, lotId, nonconforming)
  return lotId
}
const sign = async (lotId: number, reason = '') => ({
  version: (await factsOf(db, lotId)).version,
  password: PASSWORD,
  reason,
})
const decide = async (lotId: number, choice: Choice, reason = '', who = manager) =>
  decideLot(db, who, lotId, { ...(await sign(lotId, reason)), ...choice })
const screenedLot = async (nonconforming: number, rest: number) => {
  const lotId = await testedLot(nonconforming)
  await decide(lotId, { outcome: 'screened' })
  await recordAll(db, three, lotId, rest)
  return lotId
}

describe('a decision', () => {
  test.each([
    { found: 0, outcome: 'accepted', reason: '', verdict: 'accept', kept: 24 },
    { found: 1, outcome: 'accepted', reason: '', verdict: 'accept', kept: 23 },
    { found: 2, outcome: 'returned', reason: '', verdict: 'reject', kept: 0 },
    { found: 0, outcome: 'returned', reason: 'wrong print on the jackets', verdict: 'accept', kept: 0 },
    { found: 3, outcome: 'accepted', reason: 'needed tonight', verdict: 'reject', kept: 21 },
  ] as const)(
    'of $outcome with $found found in 6 of 24 is kept with the verdict',
    async ({ found, outcome, reason, verdict, kept }) => {
      const lotId = await testedLot(found)
      await decide(lotId, { outcome }, reason)
      const facts = await factsOf(db, lotId)
      expect(facts).toMatchObject({
        state: outcome,
        decision: { outcome, verdict, reason, recorded: 6, found, dutiesSeparated: true, by: manager.name },
        balance: { received: 24, kept, sentBack: 24 - kept, missing: 0 },
        next: undefined,
      })
      expect(facts.audit[0]?.action).toBe(`lot.${outcome}`)
    },
  )

  test.each([
    { found: 2, choice: { outcome: 'accepted' } },
    { found: 0, choice: { outcome: 'returned' } },
    { found: 0, choice: { outcome: 'screened' } },
    { found: 0, choice: { outcome: 'conceded', concession: terms } },
    { found: 2, choice: { outcome: 'conceded', concession: terms } },
  ] as const)(
    'of $choice.outcome with $found found goes against the plan or the terms and needs a reason',
    async ({ found, choice }) => {
      const lotId = await testedLot(found)
      await expect(decide(lotId, choice, '  ')).rejects.toMatchObject(invalid('reason'))
      expect((await factsOf(db, lotId)).state).toBe('drawn')
      await decide(lotId, choice, 'agreed by telephone')
      expect((await factsOf(db, lotId)).decision).toMatchObject({
        outcome: choice.outcome,
        reason: 'agreed by telephone',
      })
    },
  )

  test('is not made before the plan has a verdict', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0] = await toTest(db, lotId)
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: one, ...failing })
    await expect(decide(lotId, { outcome: 'returned' }, 'enough seen')).rejects.toMatchObject(conflict)
    await expect(evidenceNow(db, lotId)).rejects.toMatchObject(conflict)
  })

  test('may be made as soon as the rejection number is reached', async () => {
    const lotId = await drawnLot(db, three)
    for (const position of (await toTest(db, lotId)).slice(0, 2))
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...failing })
    await decide(lotId, { outcome: 'returned' })
    expect((await factsOf(db, lotId)).decision).toMatchObject({ recorded: 2, found: 2, upperInLot: 24 })
  })

  test('is a manager’s, signed with the manager’s own password', async () => {
    const lotId = await testedLot(0)
    for (const other of [officer, inspector])
      await expect(decide(lotId, { outcome: 'accepted' }, '', other)).rejects.toMatchObject(forbidden)
    const wrong = { ...(await sign(lotId)), password: 'three other words', outcome: 'accepted' } as const
    await expect(decideLot(db, manager, lotId, wrong)).rejects.toMatchObject(invalid('password'))
    expect((await factsOf(db, lotId)).state).toBe('drawn')
  })

  test('rests on the page that the manager saw', async () => {
    const lotId = await testedLot(0)
    const seen = await sign(lotId)
    const position = (await drawnInOrder(db, lotId))[0]?.position ?? 0
    await correctResult(db, inspector, lotId, {
      key: randomUUID(),
      position,
      entryNumber: 1,
      reason: 'misread',
      ...failing,
    })
    await expect(decideLot(db, manager, lotId, { ...seen, outcome: 'accepted' })).rejects.toMatchObject(conflict)
  })

  test('of two managers at once is one decision, and the other is told', async () => {
    const lotId = await testedLot(0)
    const both = await Promise.allSettled([
      decide(lotId, { outcome: 'accepted' }, '', manager),
      decide(lotId, { outcome: 'returned' }, 'not wanted', deputy),
    ])
    expect(both.filter((one) => one.status === 'fulfilled')).toHaveLength(1)
    expect(both.find((one) => one.status === 'rejected')?.reason).toMatchObject(conflict)
    const decided = await owner`select count(*)::int as n from decisions where lot_id = ${lotId}`
    const told =
      await owner`select count(*)::int as n from audit where subject = ${`lot/${lotId}`} and action in ('lot.accepted', 'lot.returned')`
    expect([...decided, ...told]).toEqual([{ n: 1 }, { n: 1 }])
  })

  test('closes the lot: no result, correction, stand-in, second decision or withdrawal afterwards', async () => {
    const lotId = await testedLot(2)
    await decide(lotId, { outcome: 'returned' })
    const [cord] = await drawnInOrder(db, lotId)
    const position = cord?.position ?? 0
    const late = { key: randomUUID(), position, ...clear }
    await expect(recordResult(db, inspector, lotId, late)).rejects.toMatchObject(conflict)
    await expect(correctResult(db, inspector, lotId, { ...late, entryNumber: 1, reason: 'x' })).rejects.toMatchObject(
      conflict,
    )
    await expect(allowStandIn(db, manager, lotId, late)).rejects.toMatchObject(conflict)
    await expect(decide(lotId, { outcome: 'accepted' }, 'x')).rejects.toMatchObject(conflict)
    await expect(closeLot(db, manager, lotId, { ...(await sign(lotId)), outcome: 'sorted' })).rejects.toMatchObject(
      conflict,
    )
    const { version } = await factsOf(db, lotId)
    await expect(withdrawLot(db, manager, lotId, { version, reason: 'x' })).rejects.toMatchObject(conflict)
    await expect(owner`update results set note = 'x' where lot_id = ${lotId}`).rejects.toMatchObject({
      constraint_name: 'results_while_tested',
    })
  })

  test('and a result at the same moment: whichever is first, nothing is lost', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0, last = 0] = await toTest(db, lotId)
    for (const position of [one, two])
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...failing })
    const [decided, recorded] = await Promise.allSettled([
      decide(lotId, { outcome: 'returned' }),
      recordResult(db, inspector, lotId, { key: randomUUID(), position: last, ...clear }),
    ])
    const facts = await factsOf(db, lotId)
    expect(facts.progress.sampleRecorded).toBe(recorded.status === 'fulfilled' ? 3 : 2)
    expect(facts.state).toBe(decided.status === 'fulfilled' ? 'returned' : 'drawn')
  })
})

describe('who recorded', () => {
  const alone = { ...deputy, separateDuties: false }

  test('does not decide, and the database holds that too', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0] = await toTest(db, lotId)
    await recordResult(db, alone, lotId, { key: randomUUID(), position: one, ...clear })
    await recordAll(db, three, lotId)
    await expect(decide(lotId, { outcome: 'accepted' }, '', deputy)).rejects.toMatchObject(forbidden)
    await expect(
      owner`insert into decisions (lot_id, after, outcome, verdict, reason, recorded, found, upper_bound_in_lot, evidence, duties_separated, decided_by)
        values (${lotId}, 'sample', 'accepted', 'accept', '', 6, 0, 9, '{}', true, ${deputy.id})`,
    ).rejects.toMatchObject({ constraint_name: 'decisions_by_another_person' })
    await decide(lotId, { outcome: 'accepted' })
  })

  test('or corrected an entry, even one that was corrected again, does not decide either', async () => {
    const lotId = await testedLot(0)
    const position = (await drawnInOrder(db, lotId))[0]?.position ?? 0
    const correct = (who: typeof manager, entryNumber: number) =>
      correctResult(db, who, lotId, { key: randomUUID(), position, entryNumber, reason: 'misread', ...clear })
    await correct(alone, 1)
    await correct(inspector, 2)
    await expect(decide(lotId, { outcome: 'accepted' }, '', deputy)).rejects.toMatchObject(forbidden)
  })

  test('decides in a firm of one person, and the record says so', async () => {
    const lotId = await drawnLot(db, { officer: alone, inspector: alone, manager: alone })
    await recordAll(db, { officer: alone, inspector: alone, manager: alone }, lotId)
    await decide(lotId, { outcome: 'accepted' }, '', alone)
    const facts = await factsOf(db, lotId)
    expect(facts.decision?.dutiesSeparated).toBe(false)
    expect(facts.audit[0]?.detail).toMatchObject({ dutiesSeparated: false })
  })
})

describe('a concession', () => {
  test('says who bears the risk, for which use, how many cords and until when', async () => {
    const lotId = await testedLot(2)
    await decide(lotId, { outcome: 'conceded', concession: terms }, 'agreed by telephone')
    expect(await factsOf(db, lotId)).toMatchObject({
      state: 'conceded',
      decision: { outcome: 'conceded', concession: terms },
    })
  })

  test.each([
    { change: { riskBearer: ' ' }, field: 'riskBearer' },
    { change: { use: '' }, field: 'use' },
    { change: { cords: 0 }, field: 'cords' },
    { change: { cords: 25 }, field: 'cords' },
    { change: { cords: Number.NaN }, field: 'cords' },
    { change: { until: '2027-02-29' }, field: 'until' },
    { change: { until: 'soon' }, field: 'until' },
  ])('with $change is refused at $field', async ({ change, field }) => {
    const lotId = await testedLot(2)
    const choice = { outcome: 'conceded', concession: { ...terms, ...change } } as const
    await expect(decide(lotId, choice, 'agreed')).rejects.toMatchObject(invalid(field))
    expect((await factsOf(db, lotId)).state).toBe('drawn')
  })
})

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
    const shown = await evidenceNow(db, lotId)
    await decide(lotId, { outcome: 'accepted' })
    const frozen = await frozenEvidence(db, lotId, 'sample')
    expect(frozen).toEqual(shown)
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
    expect(frozen.results.map((cord) => cord.position)).toEqual(positions)
    expect(frozen.results[2]).toMatchObject({
      returnLossMargin: '-0.04',
      nonconforming: true,
      spool: 'S2',
      recordedBy: inspector.name,
    })
    expect(frozen.results[0]).toMatchObject({
      crosstalkMargin: '4.10',
      state: 'conforms',
      pick: frozen.results[0]?.pick,
    })
    // The seed in it draws the same cords again.
    const again = drawUnits({ lotSize: 24, sampleSize: 6, seed: frozen.draw.seed })
    expect(frozen.results.toSorted((a, b) => (a.pick ?? 0) - (b.pick ?? 0)).map((cord) => cord.position)).toEqual(again)
    expect(Object.values(frozen.method).every((sentence) => sentence.length > 40)).toBe(true)
  })

  test('stays as it was when the sample is corrected during a screening', async () => {
    const lotId = await testedLot(2)
    await decide(lotId, { outcome: 'screened' })
    const before = await frozenEvidence(db, lotId, 'sample')
    const [cord] = (await drawnInOrder(db, lotId)).filter((each) => each.result?.nonconforming)
    await correctResult(db, inspector, lotId, {
      key: randomUUID(),
      position: cord?.position ?? 0,
      entryNumber: 1,
      reason: 'misread',
      ...clear,
    })
    expect(await frozenEvidence(db, lotId, 'sample')).toEqual(before)
    expect((await factsOf(db, lotId)).decision).toMatchObject({ found: 2, verdict: 'reject' })
    await expect(owner`update decisions set evidence = '{}'`).rejects.toMatchObject({ constraint_name: 'written_once' })
    await expect(frozenEvidence(db, lotId, 'screening')).rejects.toMatchObject({ kind: 'missing' })
  })
})

describe('screening', () => {
  test('puts all other cords on the bench, and the last result ends it', async () => {
    const lotId = await testedLot(2)
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
    await recordFile(db, inspector, lotId, { key: randomUUID(), text })
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
    const lotId = await testedLot(2)
    await decide(lotId, { outcome: 'screened' })
    const rows = (await toTest(db, lotId)).map((position) => `${position};3;3;pass;pass;AT-1`)
    const heading = 'position;crosstalk margin;return loss margin;wire map;visual;tester serial'
    await recordFile(db, inspector, lotId, { key: randomUUID(), text: [heading, ...rows].join('\n') })
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
      kind: 'missing',
      note: 'not in its place',
    })
    await allowStandIn(db, manager, lotId, { key: randomUUID(), position: one })
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
    const lotId = await testedLot(2, { size: 6 })
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
    expect((await frozenEvidence(db, lotId, 'screening')).results).toHaveLength(24)
    expect(facts.audit[0]?.action).toBe(`lot.${outcome}`)
  })

  test('is closed by a manager, once, when it is finished, on the page as it is', async () => {
    const lotId = await testedLot(2)
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
      proof: { upperInLot: 23, lowerInLot: 23, untested: 0 },
    })
    await decide(lotId, { outcome: 'accepted' })
    expect((await factsOf(db, lotId)).balance).toEqual({ received: 24, kept: 1, sentBack: 23, missing: 0 })
  })
})
