// A lot that was here before: resubmitted once after a declared sorting, or sent in the place of one that went back.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { announceLot } from '../../../app/lots/acts/announce.ts'
import { chooseRule } from '../../../app/lots/acts/choose-rule.ts'
import { correctLot } from '../../../app/lots/acts/correct.ts'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { drawLot } from '../../../app/lots/acts/draw.ts'
import { freezePlan } from '../../../app/lots/acts/freeze-plan.ts'
import { receiveLot } from '../../../app/lots/acts/receive.ts'
import { withdrawLot } from '../../../app/lots/acts/withdraw.ts'
import { receiptCheck } from '../../../app/lots/receipt-check.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import type { FormerLot } from '../../../app/lots/rules/former.ts'
import { freshDatabase } from '../../support/database.ts'
import { announcedLot, signature, testedLot, type Wanted } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

const sorting = 'All 480 tested again for return loss; 22 taken out.'

/** A lot that the plan rejected and that went back. */
async function returnedLot(wanted: Wanted = {}): Promise<number> {
  const lotId = await testedLot(db, three, 3, wanted)
  await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'returned' })
  return lotId
}

/** Announces another lot like it. */
async function again(like: number, former: FormerLot, size = 24): Promise<number> {
  const { supplier, item } = await factsOf(db, like)
  const packing = { size, cartons: Math.ceil(size / 10), cordsInCarton: 10 }
  const said = { productionMark: 'W31', purchaseOrder: 'PO 7', isolated: false, former }
  const series = { supplierId: supplier.id, itemId: item.id }
  return aloud(announceLot(db, officer, { key: randomUUID(), ...series, ...packing, ...said }))
}

const resubmitted = (lotId: number, said = sorting): FormerLot => ({ kind: 'resubmission', lotId, sorting: said })
const inPlaceOf = (lotId: number): FormerLot => ({ kind: 'replacement', lotId })

async function received(lotId: number) {
  const { version, announced } = await factsOf(db, lotId)
  await receiveLot(db, inspector, lotId, { ...announced, version, note: '' })
  return factsOf(db, lotId)
}

describe('a lot that went back', () => {
  test('comes again, each naming the other, and the audit says what was sorted', async () => {
    const before = await returnedLot()
    expect((await factsOf(db, before)).links.again).toEqual(['resubmission', 'replacement'])
    const lotId = await again(before, resubmitted(before))
    const { links, audit } = await factsOf(db, lotId)
    expect(links.former).toMatchObject({ kind: 'resubmission', lotId: before, sorting })
    expect(audit[0]).toMatchObject({ action: 'lot.announced' })
    const [line] = await owner`select detail from audit where subject = ${`lot/${lotId}`}`
    expect(line?.detail).toMatchObject({ resubmissionOf: before, declaredSorting: sorting, replacementOf: null })
    expect((await factsOf(db, before)).links).toMatchObject({
      later: [{ kind: 'resubmission', lotId, state: 'announced' }],
      again: ['replacement'],
    })
  })

  test('comes again once, also where two announce it at once', async () => {
    const before = await returnedLot()
    const both = await Promise.allSettled([again(before, resubmitted(before)), again(before, resubmitted(before))])
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    await expect(again(before, resubmitted(before))).rejects.toMatchObject({
      message: expect.stringContaining('was sent again before'),
      field: 'formerLot',
    })
  })

  test('does not come a third time, but may be replaced', async () => {
    const before = await returnedLot()
    const second = await again(before, resubmitted(before))
    const facts = await received(second)
    await freezePlan(db, officer, second, {
      version: facts.version,
      reason: 'for the test',
      kind: 'single',
      sampleSize: 6,
      acceptanceNumber: 1,
    })
    await owner`update lots set state = 'returned' where id = ${second}`
    await expect(again(second, resubmitted(second))).rejects.toThrow('was sent again before')
    expect((await factsOf(db, second)).links.again).toEqual(['replacement'])
    const third = await again(second, inPlaceOf(second))
    expect((await factsOf(db, third)).links.former).toMatchObject({ kind: 'replacement', lotId: second })
  })

  test('that was announced again by mistake and withdrawn before it came may be announced again', async () => {
    const before = await returnedLot()
    const mistake = await again(before, resubmitted(before))
    await withdrawLot(db, manager, mistake, { version: (await factsOf(db, mistake)).version, reason: 'a mistake' })
    await expect(again(before, resubmitted(before))).resolves.toBeGreaterThan(mistake)
  })

  test('is named and sorted before it comes again', async () => {
    const before = await returnedLot()
    await expect(again(before, resubmitted(before, '  '))).rejects.toMatchObject({ field: 'declaredSorting' })
    await expect(again(before, resubmitted(2_000_000_000))).rejects.toMatchObject({ field: 'formerLot' })
    await expect(again(before, resubmitted(before), 25)).rejects.toMatchObject({ field: 'size' })
    const other = await returnedLot()
    await expect(again(before, resubmitted(other))).rejects.toThrow('of another supplier or item')
    const open = await announcedLot(db, three)
    await expect(again(open, inPlaceOf(open))).rejects.toThrow('did not go back')
  })

  test('is what a correction may say until the plan is frozen, and not of another supplier', async () => {
    const before = await returnedLot()
    const lotId = await again(before, inPlaceOf(before))
    const { version, announced, supplier, item } = await factsOf(db, lotId)
    const said = { ...announced, supplierId: supplier.id, itemId: item.id, version }
    await correctLot(db, officer, lotId, { ...said, former: resubmitted(before) })
    expect((await factsOf(db, lotId)).links.former).toMatchObject({ kind: 'resubmission', lotId: before })
    const elsewhere = await factsOf(db, await announcedLot(db, three))
    const moved = { ...said, version: version + 1, supplierId: elsewhere.supplier.id, former: resubmitted(before) }
    await expect(aloud(correctLot(db, officer, lotId, moved))).rejects.toThrow('of another supplier or item')
    await correctLot(db, officer, lotId, { ...said, version: version + 1 })
    expect((await factsOf(db, lotId)).links.former).toBeUndefined()
  })
})

describe('what is demanded of a resubmitted lot', () => {
  // 480 cords, 5 too many, 95 of 100: 216 with none allowed (C(264,5)/C(480,5) = 4.95 %); at 2.5 % it is 250 (2.47 %, 249 gives 2.53 %): whole numbers in Python
  const terms = { tooMany: '5', catchOf100: '95' }

  test('is the item’s rule at half its risk, in the plan that freezes and in the record', async () => {
    const before = await returnedLot({ terms, size: 480 })
    const lotId = await again(before, resubmitted(before), 480)
    const { version } = await factsOf(db, lotId)
    await chooseRule(db, officer, lotId, { version, rule: { kind: 'zero-acceptance' } })
    const { version: now, announced } = await factsOf(db, lotId)
    const count = { size: 480, cartons: announced.cartons, cordsInCarton: announced.cordsInCarton, oneMark: true }
    const check = await receiptCheck(db, inspector, lotId, { version: now, ...count })
    await receiveLot(db, inspector, lotId, { version: now, note: '', ...count, shown: check?.shown })
    expect(await factsOf(db, lotId)).toMatchObject({
      state: 'planned',
      terms: { catchOf100: '97.5', tooMany: 5 },
      plan: { sampleSize: 250, acceptanceNumber: 0 },
    })
  })

  test('makes a plan weaker that is strong enough for any other lot', async () => {
    const before = await returnedLot({ terms, size: 480 })
    const plan = { kind: 'zero-acceptance', sampleSize: 216, acceptanceNumber: 0 } as const
    const other = await received(await again(before, inPlaceOf(before), 480))
    await freezePlan(db, officer, other.id, { version: other.version, ...plan })
    const { id, version } = await received(await again(before, resubmitted(before), 480))
    await expect(freezePlan(db, officer, id, { version, ...plan })).rejects.toMatchObject({ field: 'reason' })
    await freezePlan(db, officer, id, { version, ...plan, sampleSize: 250 })
  })

  // 480 cords, level II, 1.0 %: letter H, tightened 80 with 1 allowed (MIL-STD-105E, 1989, Tables I and II-B, read: H moves to J, 80/1)
  test('is the standard’s tightened plan where the contract names the standard', async () => {
    const standard = { tooMany: '24', catchOf100: '80', acceptanceQualityLimit: '1.0' }
    const before = await returnedLot({ terms: standard, size: 480 })
    const { id, version, terms: demanded } = await received(await again(before, resubmitted(before), 480))
    expect(demanded.catchOf100).toBe('80')
    const normal = { kind: 'single', sampleSize: 50, acceptanceNumber: 1 } as const
    await expect(freezePlan(db, officer, id, { version, ...normal })).rejects.toMatchObject({ field: 'reason' })
    const stages = [{ sampleSize: 80, acceptanceNumber: 1, rejectionNumber: 2 }]
    await freezePlan(db, officer, id, { version, kind: 'standard', stages })
    const [plan] = await owner`select standard_sample_size, weaker_reason from plans where lot_id = ${id}`
    expect(plan).toMatchObject({ standard_sample_size: null, weaker_reason: null })
  })
})

describe('behind the verbs the database', () => {
  test.each([
    ['of a second time', (f: number) => `resubmission_of = ${f}, declared_sorting = 'x'`, 'lots_resubmitted_once'],
    ['without a sorting', (f: number) => `resubmission_of = ${f}`, 'lots_declared_sorting'],
    [
      'that is a replacement too',
      (f: number) => `resubmission_of = ${f}, declared_sorting = 'x', replacement_of = ${f}`,
      'lots_one_former',
    ],
    ['of a lot that did not go back', () => `resubmission_of = id, declared_sorting = 'x'`, 'lots_former_went_back'],
  ])('takes no resubmission %s', async (_, change, constraint) => {
    const before = await returnedLot()
    if (constraint === 'lots_resubmitted_once') await again(before, resubmitted(before))
    const { supplier, item } = await factsOf(db, before)
    const lotId = await announcedLot(db, three)
    await owner`update lots set supplier_id = ${supplier.id}, item_id = ${item.id} where id = ${lotId}`
    const broken = db.execute(`update lots set ${change(before)} where id = ${lotId}`)
    await expect(broken).rejects.toMatchObject({ cause: { constraint_name: constraint } })
  })

  test('keeps what was said once the plan is frozen', async () => {
    const before = await returnedLot()
    const lotId = await again(before, resubmitted(before))
    const { version } = await received(lotId)
    const plan = { kind: 'single', sampleSize: 6, acceptanceNumber: 1, reason: 'for the test' } as const
    await freezePlan(db, officer, lotId, { version, ...plan })
    await drawLot(db, inspector, lotId)
    const broken = db.execute(`update lots set declared_sorting = 'another' where id = ${lotId}`)
    await expect(broken).rejects.toMatchObject({ cause: { constraint_name: 'lots_frozen' } })
  })
})
