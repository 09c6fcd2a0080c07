// A plan that freezes by itself: the officer chooses the rule, the inspector confirms the count.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { announceLot } from '../../../app/lots/acts/announce.ts'
import { chooseRule } from '../../../app/lots/acts/choose-rule.ts'
import { correctLot } from '../../../app/lots/acts/correct.ts'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { freezePlan } from '../../../app/lots/acts/freeze-plan.ts'
import { receiveLot } from '../../../app/lots/acts/receive.ts'
import { receiptCheck } from '../../../app/lots/receipt-check.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import type { PlanRule } from '../../../app/lots/rules/plan-rule.ts'
import { databaseOver } from '../../../db/client.ts'
import { freshDatabase } from '../../support/database.ts'
import { announcedLot, drawnInSeries, recordAll, signature, type Wanted } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

type Rule = PlanRule & { reason?: string }
const none = { kind: 'zero-acceptance' } as const

async function lotWith(rule: Rule, wanted: Wanted = {}): Promise<number> {
  const lotId = await announcedLot(db, three, wanted)
  await chooseRule(db, officer, lotId, { version: (await factsOf(db, lotId)).version, rule })
  return lotId
}

/** Both presses: what the check page shows is sent back with the count. */
async function received(lotId: number, size: number, oneMark = true) {
  const count = { size, cartons: Math.ceil(size / 10), cordsInCarton: 10, oneMark }
  const { version } = await factsOf(db, lotId)
  const check = await receiptCheck(db, inspector, lotId, { version, ...count })
  await receiveLot(db, inspector, lotId, { version, note: '', ...count, shown: check?.shown })
  return factsOf(db, lotId)
}

describe('a rule that the officer chose', () => {
  test('freezes its plan for the number counted, in the transaction of the receipt, and the record names both', async () => {
    const lotId = await lotWith(none, { size: 480, terms: { tooMany: '1%', catchOf100: '95' } })
    const facts = await received(lotId, 477)
    expect(facts).toMatchObject({
      state: 'planned',
      size: 477,
      // the fewest n with C(472, n) ÷ C(477, n) ≤ 0.05, by whole numbers in Python
      plan: { kind: 'zero-acceptance', sampleSize: 215, acceptanceNumber: 0 },
      next: { act: 'draw' },
    })
    expect(facts.plan).toMatchObject({ chosenBy: officer.name, by: inspector.name, weakerReason: undefined })
    expect(facts.audit.map(({ action, personName }) => [action, personName]).reverse()).toEqual([
      ['lot.announced', officer.name],
      ['lot.rule-chosen', officer.name],
      ['lot.received', inspector.name],
      ['lot.planned', inspector.name],
    ])
  })

  // two of N are too many: a sample of 16 misses both of 20 with chance 4·3/(20·19) = 3.2 %, of 21 with 4.8 %, of 22 with 6.5 %
  const contract = { kind: 'contract', sampleSize: 16, acceptanceNumber: 0 } as const
  const two = { size: 20, terms: { tooMany: '2', countDifferencePercent: '10' } }

  test.each([
    { name: 'within the share', rule: contract, wanted: two, size: 21, becomes: 'freezes' },
    { name: 'at the share, weaker without a reason', rule: contract, wanted: two, size: 22, becomes: 'weaker' },
    {
      name: 'the same with one',
      rule: { ...contract, reason: 'clause 4.2' },
      wanted: two,
      size: 22,
      becomes: 'freezes',
    },
    { name: 'beyond the share', rule: contract, wanted: two, size: 23, becomes: 'count' },
    { name: 'beyond the usual 2 %', rule: none, wanted: { size: 50 }, size: 48, becomes: 'count' },
    { name: 'at the usual 2 %', rule: none, wanted: { size: 50 }, size: 49, becomes: 'freezes' },
    {
      name: 'fewer than the plan has',
      rule: { ...contract, sampleSize: 20 },
      wanted: two,
      size: 19,
      becomes: 'numbers',
    },
    { name: 'every cord', rule: { kind: 'every-cord' }, wanted: two, size: 19, becomes: 'freezes' },
    { name: 'both risks', rule: { kind: 'single', good: 1, goodRisk: 0.3 }, wanted: two, size: 19, becomes: 'freezes' },
  ] as { name: string; rule: Rule; wanted: Wanted; size: number; becomes: string }[])(
    '$name: $becomes',
    async ({ rule, wanted, size, becomes }) => {
      const { state, plan, rule: kept } = await received(await lotWith(rule, wanted), size)
      expect({ state, waits: kept?.waits }).toEqual(
        becomes === 'freezes' ? { state: 'planned', waits: undefined } : { state: 'received', waits: becomes },
      )
      expect(plan === undefined).toBe(becomes !== 'freezes')
      if (plan && size === 22) expect(plan.weakerReason).toBe('clause 4.2')
    },
  )

  test('waits where one production mark is not confirmed, and freezes when the lot is counted again', async () => {
    const lotId = await lotWith(none)
    expect((await received(lotId, 24, false)).rule?.waits).toBe('marks')
    expect(await received(lotId, 24)).toMatchObject({ state: 'planned', rule: { waits: undefined } })
  })

  test('waits where the item was changed since, or another one named', async () => {
    const changed = await lotWith(none)
    await owner`update items set version = version + 1 where id = ${(await factsOf(db, changed)).item.id}`
    expect((await received(changed, 24)).rule?.waits).toBe('item')
    const corrected = await lotWith(none)
    const { version, announced, supplier } = await factsOf(db, corrected)
    const itemId = (await factsOf(db, changed)).item.id
    await correctLot(db, officer, corrected, { ...announced, version, supplierId: supplier.id, itemId })
    expect((await received(corrected, 24)).rule?.waits).toBe('item')
  })

  test('waits where the series is discontinued', async () => {
    const plan = { kind: 'single', sampleSize: 12, acceptanceNumber: 3 } as const
    const wanted = { terms: { acceptanceQualityLimit: '10' }, plan }
    let series: { supplierId: number; itemId: number } | undefined
    for (let lot = 0; lot < 7; lot++) {
      const { lotId, ...of } = await drawnInSeries({ db, owner }, three, wanted, series)
      series = of
      await recordAll(db, three, lotId, 2)
      await decideLot(db, manager, lotId, { ...(await signature(db, lotId, 'for the test')), outcome: 'returned' })
    }
    const lotId = await announcedLot(db, three)
    const { itemId = 0, supplierId = 0 } = series ?? {}
    await owner`update lots set supplier_id = ${supplierId}, item_id = ${itemId} where id = ${lotId}`
    await chooseRule(db, officer, lotId, { version: (await factsOf(db, lotId)).version, rule: none })
    expect((await received(lotId, 24)).rule?.waits).toBe('discontinued')
  })

  test('that waits leaves the plan to the officer', async () => {
    const lotId = await lotWith(none, { size: 50 })
    const { version } = await received(lotId, 47)
    await freezePlan(db, officer, lotId, { version, kind: 'every-cord', sampleSize: 47, acceptanceNumber: 47 })
    const { plan } = await factsOf(db, lotId)
    expect([plan?.by, plan?.chosenBy]).toEqual([officer.name, undefined])
  })

  test('is given up, and then nothing freezes', async () => {
    const lotId = await lotWith(none)
    await chooseRule(db, officer, lotId, { version: (await factsOf(db, lotId)).version, rule: undefined })
    expect(await received(lotId, 24)).toMatchObject({ state: 'received', rule: undefined, plan: undefined })
  })

  test('is chosen with the announcement too, and the form sent twice is one lot', async () => {
    const { supplier, item, announced } = await factsOf(db, await announcedLot(db, three))
    const form = { ...announced, key: randomUUID(), supplierId: supplier.id, itemId: item.id, rule: none }
    const lotId = await announceLot(db, officer, form)
    expect(await announceLot(db, officer, form)).toBe(lotId)
    expect((await factsOf(db, lotId)).rule).toMatchObject({ rule: none, by: officer.name })
    const other = announceLot(db, officer, { ...form, rule: { kind: 'every-cord' } })
    await expect(other).rejects.toMatchObject({ kind: 'conflict' })
  })
})

describe('nobody passes it by', () => {
  const count = { size: 24, cartons: 3, cordsInCarton: 10, note: '', oneMark: true }

  test.each([undefined, 'waits count', 'zero-acceptance 1/0'])(
    'a receipt that shows %s keeps nothing',
    async (shown) => {
      const lotId = await lotWith(none)
      const { version } = await factsOf(db, lotId)
      await expect(receiveLot(db, inspector, lotId, { ...count, version, shown })).rejects.toMatchObject({
        kind: 'conflict',
        code: 'receipt/shown-otherwise',
      })
      expect((await factsOf(db, lotId)).state).toBe('announced')
    },
  )

  test('a receipt from before the rule was chosen is refused', async () => {
    const lotId = await announcedLot(db, three)
    const { version } = await factsOf(db, lotId)
    await chooseRule(db, officer, lotId, { version, rule: none })
    await expect(receiveLot(db, inspector, lotId, { ...count, version })).rejects.toMatchObject({
      code: 'lot/changed-since',
    })
  })

  test('the rule is the officer’s, while the lot is announced', async () => {
    const lotId = await announcedLot(db, three)
    const { version } = await factsOf(db, lotId)
    for (const other of [inspector, manager])
      await expect(chooseRule(db, other, lotId, { version, rule: none })).rejects.toMatchObject({ kind: 'forbidden' })
    const { version: later } = await received(lotId, 24)
    await expect(chooseRule(db, officer, lotId, { version: later, rule: none })).rejects.toMatchObject({
      code: 'lot/state',
    })
  })

  test.each([
    { rule: none, terms: { critical: true }, code: 'plan/critical' },
    { rule: { kind: 'contract', sampleSize: 25, acceptanceNumber: 0 }, terms: {}, code: 'rule/no-plan' },
    { rule: { kind: 'contract', sampleSize: 5, acceptanceNumber: 1 }, terms: {}, code: 'plan/weaker' },
    { rule: { kind: 'contract', sampleSize: 5, acceptanceNumber: 1, reason: ' ' }, terms: {}, code: 'plan/weaker' },
  ] as { rule: Rule; terms: Wanted['terms']; code: string }[])('a rule is refused with $code', async (each) => {
    const lotId = await announcedLot(db, three, { terms: each.terms ?? {} })
    const { version } = await factsOf(db, lotId)
    await expect(chooseRule(db, officer, lotId, { version, rule: each.rule })).rejects.toMatchObject({
      kind: 'invalid',
      code: each.code,
    })
    expect((await factsOf(db, lotId)).rule).toBeUndefined()
  })

  test.each([
    { sql: "update plan_rules set kind = 'every-cord'", constraint: 'plan_rules_while_announced' },
    { sql: "update plan_rules set reason = 'another'", constraint: 'plan_rules_while_announced' },
    { sql: 'delete from plan_rules', constraint: 'plan_rules_while_announced' },
  ])('the database refuses the service, once the lot is counted: $sql', async ({ sql, constraint }) => {
    const lotId = await lotWith(none)
    await received(lotId, 24, false)
    await expect(db.execute(`${sql} where lot_id = ${lotId}`)).rejects.toMatchObject({
      cause: { constraint_name: constraint },
    })
  })

  test('the database takes no plan by a rule that is another, or that waits', async () => {
    const planned = await lotWith(none)
    await received(planned, 24)
    const waiting = await lotWith(none)
    await received(waiting, 24, false)
    const copied = (lotId: number, kind: string) =>
      databaseOver(owner).execute(
        `insert into plans select (jsonb_populate_record(null::plans, to_jsonb(p) || '{"lot_id": ${lotId}, "kind": "${kind}"}')).* from plans p where lot_id = ${planned}`,
      )
    const ruleless = await announcedLot(db, three)
    await expect(copied(waiting, 'zero-acceptance')).rejects.toMatchObject({
      cause: { constraint_name: 'plans_that_wait' },
    })
    await expect(copied(ruleless, 'zero-acceptance')).rejects.toMatchObject({
      cause: { constraint_name: 'plans_by_their_rule' },
    })
  })
})
