// The manager's decision on a tested lot.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { closeLot } from '../../../app/lots/acts/close.ts'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { type DecisionChoice, decideLot } from '../../../app/lots/acts/decide.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../../app/lots/record/pick-list.ts'
import { freshDatabase } from '../../support/database.ts'
import { clear, drawnLot, failing, recordAll, signature, testedLot, toTest } from '../../support/lot.ts'
import { addTo, threePeople } from '../../support/people.ts'
import { takeReserve } from '../../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three
const deputy = await addTo(db, 'Milo Manager', 'manager')

const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })
const terms = { riskBearer: 'P. Ostrow, data hall', use: 'low-speed desks', cords: 20, until: '2028-02-29' }

const sign = (lotId: number, reason = '') => signature(db, lotId, reason)
const decide = async (lotId: number, choice: DecisionChoice, reason = '', who = manager) =>
  decideLot(db, who, lotId, { ...(await sign(lotId, reason)), ...choice })

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
      const lotId = await testedLot(db, three, found)
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
      const lotId = await testedLot(db, three, found)
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
  })

  test('may be made as soon as the rejection number is reached', async () => {
    const lotId = await drawnLot(db, three)
    for (const position of (await toTest(db, lotId)).slice(0, 2))
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...failing })
    await decide(lotId, { outcome: 'returned' })
    expect((await factsOf(db, lotId)).decision).toMatchObject({ recorded: 2, found: 2, upperInLot: 24 })
  })

  test('is a manager’s, signed with the manager’s own password', async () => {
    const lotId = await testedLot(db, three, 0)
    for (const other of [officer, inspector])
      await expect(decide(lotId, { outcome: 'accepted' }, '', other)).rejects.toMatchObject(forbidden)
    const wrong = { ...(await sign(lotId)), password: 'three other words', outcome: 'accepted' } as const
    await expect(decideLot(db, manager, lotId, wrong)).rejects.toMatchObject(invalid('password'))
    expect((await factsOf(db, lotId)).state).toBe('drawn')
  })

  test('rests on the page that the manager saw', async () => {
    const lotId = await testedLot(db, three, 0)
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
    const lotId = await testedLot(db, three, 0)
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
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'returned' })
    const [cord] = await drawnInOrder(db, lotId)
    const position = cord?.position ?? 0
    const late = { key: randomUUID(), position, ...clear }
    await expect(recordResult(db, inspector, lotId, late)).rejects.toMatchObject(conflict)
    await expect(correctResult(db, inspector, lotId, { ...late, entryNumber: 1, reason: 'x' })).rejects.toMatchObject(
      conflict,
    )
    await expect(takeReserve(db, manager, lotId, late)).rejects.toMatchObject(conflict)
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
    const lotId = await testedLot(db, three, 0)
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
    const lotId = await testedLot(db, three, 2)
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
    const lotId = await testedLot(db, three, 2)
    const choice = { outcome: 'conceded', concession: { ...terms, ...change } } as const
    await expect(decide(lotId, choice, 'agreed')).rejects.toMatchObject(invalid(field))
    expect((await factsOf(db, lotId)).state).toBe('drawn')
  })
})
