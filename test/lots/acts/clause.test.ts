// The contract's clause: of an item and of an order, frozen with the plan, and the reason of a weaker one.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { announceLot } from '../../../app/lots/acts/announce.ts'
import { chooseRule } from '../../../app/lots/acts/choose-rule.ts'
import { correctLot } from '../../../app/lots/acts/correct.ts'
import { decideLot } from '../../../app/lots/acts/decide.ts'
import { drawLot } from '../../../app/lots/acts/draw.ts'
import { freezePlan } from '../../../app/lots/acts/freeze-plan.ts'
import { receiveLot } from '../../../app/lots/acts/receive.ts'
import { frozenEvidence } from '../../../app/lots/evidence/read.ts'
import { receiptCheck } from '../../../app/lots/receipt-check.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { changeItem } from '../../../app/register/define-item.ts'
import { itemOf } from '../../../app/register/items.ts'
import { freshDatabase } from '../../support/database.ts'
import { announcedLot, receivedLot, recordAll, signature, terms, testedLot } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'
import { aloud } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

const ofItem = { clauseNumber: '7.2', clauseText: 'Of each lot 6 cords are tested; one may fail.' }
const ofOrder = { clauseNumber: '3 (b)', clauseText: 'Lots of this order are tested whole.' }
const none = { clauseNumber: null, clauseText: null }
/** 3 of 24 are too many: 6 tested, 1 allowed, lets far more than 5 of 100 such lots through. */
const weak = { kind: 'contract', sampleSize: 6, acceptanceNumber: 1 } as const

/** Another lot of the item and supplier of a lot, with a clause of its order. */
async function ordered(like: number, order: object): Promise<number> {
  const { supplier, item } = await factsOf(db, like)
  const series = { supplierId: supplier.id, itemId: item.id }
  const packing = { size: 24, cartons: 3, cordsInCarton: 10 }
  const said = { productionMark: 'W31', purchaseOrder: 'PO 7', isolated: false }
  return aloud(announceLot(db, officer, { key: randomUUID(), ...series, ...packing, ...said, ...order }))
}
const versionOf = async (lotId: number) => (await factsOf(db, lotId)).version
const receive = async (lotId: number, shown?: string) => {
  const { version, announced } = await factsOf(db, lotId)
  const { size, cartons, cordsInCarton } = announced
  const count = { size, cartons, cordsInCarton, oneMark: true }
  const check = await receiptCheck(db, inspector, lotId, { version, ...count })
  await receiveLot(db, inspector, lotId, { version, note: '', ...count, shown: shown ?? check?.shown })
  return factsOf(db, lotId)
}

describe('a clause of the contract', () => {
  test('is that of the order, or else of the item, and is frozen with the plan', async () => {
    const lotId = await announcedLot(db, three, { terms: ofItem })
    expect((await factsOf(db, lotId)).terms.clause).toEqual({ number: '7.2', text: ofItem.clauseText })
    const other = await ordered(lotId, ofOrder)
    const facts = await receive(other)
    expect(facts.terms.clause).toEqual({ number: '3 (b)', text: ofOrder.clauseText })
    await freezePlan(db, officer, other, { version: facts.version, ...weak, byClause: true })
    const { id, version } = await itemOf(db, facts.item.id)
    await changeItem(db, officer, id, {
      ...terms,
      name: randomUUID(),
      key: randomUUID(),
      version,
      clauseNumber: '9',
      clauseText: 'x',
    })
    expect((await factsOf(db, lotId)).terms.clause?.number).toBe('9')
    const { terms: frozen, plan } = await factsOf(db, other)
    expect(frozen.clause?.number).toBe('3 (b)')
    expect(plan).toMatchObject({ weakerByClause: true, weakerReason: undefined })
    const [line] = await owner`select detail from audit where subject = ${`lot/${other}`} and action = 'lot.planned'`
    expect(line?.detail).toMatchObject({ ...ofOrder, weakerByClause: true })
  })

  test.each([
    [{ clauseNumber: '7.2' }, 'clauseText'],
    [{ clauseText: 'One may fail.' }, 'clauseNumber'],
    [{ clauseNumber: 'x'.repeat(41), clauseText: 'x' }, 'clauseNumber'],
    [{ clauseNumber: '7', clauseText: 'x'.repeat(2001) }, 'clauseText'],
  ])('%j is no whole one: %s', async (said, field) => {
    const like = await announcedLot(db, three)
    await expect(ordered(like, said)).rejects.toMatchObject({ field })
  })

  test('of an order is corrected until the plan is frozen, and the audit keeps what stood before', async () => {
    const like = await announcedLot(db, three, { terms: ofItem })
    const lotId = await ordered(like, ofOrder)
    const { announced, supplier, item } = await factsOf(db, lotId)
    const said = { ...announced, supplierId: supplier.id, itemId: item.id }
    await correctLot(db, officer, lotId, { ...said, version: await versionOf(lotId) })
    expect((await factsOf(db, lotId)).terms.clause?.number).toBe('7.2')
    const [line] = await owner`select detail from audit where subject = ${`lot/${lotId}`} and action = 'lot.corrected'`
    expect(line?.detail).toMatchObject({ before: ofOrder, after: none })
  })
})

describe('a weaker plan', () => {
  test('is frozen because of the clause, with words beside it or without; a stronger one keeps no reason', async () => {
    const one = await receivedLot(db, three, { terms: ofItem })
    await freezePlan(db, officer, one, {
      version: await versionOf(one),
      ...weak,
      byClause: true,
      reason: ' as before ',
    })
    expect((await factsOf(db, one)).plan).toMatchObject({ weakerByClause: true, weakerReason: 'as before' })
    const strong = await receivedLot(db, three, { terms: ofItem })
    const whole = { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } as const
    await freezePlan(db, officer, strong, { version: await versionOf(strong), ...whole, byClause: true })
    expect((await factsOf(db, strong)).plan).toMatchObject({ weakerByClause: false, weakerReason: undefined })
  })

  test('is not frozen because of a clause that nobody has', async () => {
    const lotId = await receivedLot(db, three)
    const frozen = freezePlan(db, officer, lotId, {
      version: await versionOf(lotId),
      ...weak,
      byClause: true,
      reason: 'x',
    })
    await expect(aloud(frozen)).rejects.toMatchObject({
      field: 'reason',
      message: expect.stringContaining('Neither the order'),
    })
  })

  test('freezes by its rule because of the clause that then stands, and waits where it is gone', async () => {
    const rule = { ...weak, byClause: true }
    const like = await announcedLot(db, three)
    const one = await ordered(like, ofOrder)
    await chooseRule(db, officer, one, { version: await versionOf(one), rule })
    expect(await receive(one)).toMatchObject({ state: 'planned', plan: { weakerByClause: true } })
    const two = await ordered(like, ofOrder)
    await chooseRule(db, officer, two, { version: await versionOf(two), rule })
    const { announced, supplier, item } = await factsOf(db, two)
    const said = { ...announced, supplierId: supplier.id, itemId: item.id }
    await correctLot(db, officer, two, { ...said, version: await versionOf(two) })
    expect(await receive(two)).toMatchObject({ state: 'received', rule: { waits: 'weaker' } })
  })
})

describe('the evidence', () => {
  test('quotes the clause, and says that it was the reason', async () => {
    const lotId = await receivedLot(db, three, { terms: ofItem })
    await freezePlan(db, officer, lotId, { version: await versionOf(lotId), ...weak, byClause: true })
    await drawLot(db, inspector, lotId)
    await recordAll(db, three, lotId)
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
    const { terms: signed, plan } = await frozenEvidence(db, lotId, 'sample')
    expect(signed.clause).toEqual({ number: '7.2', text: ofItem.clauseText })
    expect(plan.weakerByClause).toBe(true)
  })

  test('that was signed before clauses were kept is read as it is', async () => {
    const lotId = await testedLot(db, three, 0)
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
    await owner.begin(async (tx) => {
      await tx`set local session_replication_role = replica`
      await tx`update decisions set evidence = evidence #- '{plan,weakerByClause}' #- '{terms,clause}' where lot_id = ${lotId}`
    })
    const { terms: signed, plan, lot } = await frozenEvidence(db, lotId, 'sample')
    expect([signed.clause, plan.weakerByClause, lot.resubmissionOf]).toEqual([undefined, undefined, undefined])
  })
})

describe('behind the verbs the database', () => {
  test('keeps the clause of an order from the plan on', async () => {
    const lotId = await testedLot(db, three, 0)
    const broken = db.execute(`update lots set clause_number = '1', clause_text = 'x' where id = ${lotId}`)
    await expect(broken).rejects.toMatchObject({ cause: { constraint_name: 'lots_frozen' } })
  })

  test('takes no plan with a clause of its own, and no half of one', async () => {
    const lotId = await testedLot(db, three, 0)
    const other = await receivedLot(db, three)
    await owner`create table copied as select * from plans where lot_id = ${lotId}`
    await owner`update copied set lot_id = ${other}, clause_number = '1', clause_text = 'x'`
    await owner`grant select on copied to cordsift_service`
    const broken = db.execute('insert into plans select * from copied')
    await expect(broken).rejects.toMatchObject({ cause: { constraint_name: 'plans_clause_of_its_lot' } })
    const half = db.execute(`update lots set clause_number = '1' where id = ${other}`)
    await expect(half).rejects.toMatchObject({ cause: { constraint_name: 'lots_clause' } })
  })
})
