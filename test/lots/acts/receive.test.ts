// A lot announced, counted at the dock, and withdrawn.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { announceLot } from '../../../app/lots/acts/announce.ts'
import { correctLot } from '../../../app/lots/acts/correct.ts'
import { receiveLot } from '../../../app/lots/acts/receive.ts'
import { withdrawLot } from '../../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { freshDatabase } from '../../support/database.ts'
import { announcedLot, drawnLot, plannedLot, receivedLot } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

const said = async (lotId: number) => {
  const { announced, supplier, item, version } = await factsOf(db, lotId)
  const { size, cartons, cordsInCarton, productionMark, purchaseOrder, isolated } = announced
  return {
    version,
    supplierId: supplier.id,
    itemId: item.id,
    size,
    cartons,
    cordsInCarton,
    productionMark,
    purchaseOrder,
    isolated,
  }
}
const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })
const actions = async (lotId: number) => (await factsOf(db, lotId)).audit.map((line) => line.action).reverse()

describe('an announced lot', () => {
  test('waits to be received, and tells the audit', async () => {
    const lotId = await announcedLot(db, three)
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({ state: 'announced', size: 24, announced: { by: officer.name, cartons: 3 } })
    expect(facts.next).toEqual({ act: 'receive', role: 'inspector' })
    expect(facts.terms).toMatchObject({ frozen: false, tooMany: 3 })
    expect(facts.received ?? facts.plan ?? facts.draw ?? facts.bounds).toBeUndefined()
    expect(await actions(lotId)).toEqual(['lot.announced'])
  })

  test('sent twice, even at once, is one lot', async () => {
    const { version, ...lot } = await said(await announcedLot(db, three))
    const key = randomUUID()
    const ids = await Promise.all([1, 2, 3].map(() => announceLot(db, officer, { key, ...lot })))
    ids.push(await announceLot(db, officer, { key, ...lot }))
    expect(new Set(ids).size).toBe(1)
    const [counted] = await owner`select count(*)::int as lots from lots where supplier_id = ${lot.supplierId}`
    expect(counted).toEqual({ lots: 2 })
  })

  test('is the procurement officer’s to announce and to correct', async () => {
    const lotId = await announcedLot(db, three)
    const { version, ...lot } = await said(lotId)
    for (const other of [inspector, manager]) {
      await expect(announceLot(db, other, { key: randomUUID(), ...lot })).rejects.toMatchObject(forbidden)
      await expect(correctLot(db, other, lotId, { version, ...lot })).rejects.toMatchObject(forbidden)
    }
  })

  test.each([
    { change: { size: 0 }, field: 'size' },
    { change: { size: 1e9 }, field: 'size' },
    { change: { size: 1.5 }, field: 'size' },
    { change: { size: Number.NaN }, field: 'size' },
    { change: { cartons: 4 }, field: 'cartons' },
    { change: { cartons: 2 }, field: 'cartons' },
    { change: { cordsInCarton: 0 }, field: 'cordsInCarton' },
    { change: { productionMark: '  ' }, field: 'productionMark' },
    { change: { purchaseOrder: '' }, field: 'purchaseOrder' },
    { change: { supplierId: 999_999 }, field: 'supplierId' },
    { change: { itemId: 999_999 }, field: 'itemId' },
  ])('with $change is refused at $field, and nothing is kept', async ({ change, field }) => {
    const { version, ...lot } = await said(await announcedLot(db, three))
    const key = randomUUID()
    await expect(announceLot(db, officer, { key, ...lot, ...change })).rejects.toMatchObject(invalid(field))
    const mended = await announceLot(db, officer, { key, ...lot }) // the refused sending has not used up the key
    expect((await factsOf(db, mended)).state).toBe('announced')
  })

  test('is corrected until the plan is frozen, and the audit keeps what stood before', async () => {
    const lotId = await receivedLot(db, three)
    await correctLot(db, officer, lotId, { ...(await said(lotId)), size: 25, purchaseOrder: 'PO 8', isolated: true })
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      size: 24,
      announced: { size: 25, purchaseOrder: 'PO 8', isolated: true },
      received: { difference: -1 },
    })
    expect(facts.audit[0]).toMatchObject({
      action: 'lot.corrected',
      detail: { before: { size: 24, purchaseOrder: 'PO 7', isolated: false } },
    })
    const planned = await plannedLot(db, three)
    await expect(correctLot(db, officer, planned, await said(planned))).rejects.toMatchObject(conflict)
  })

  test('corrected from an older page is refused', async () => {
    const lotId = await announcedLot(db, three)
    const seen = await said(lotId)
    await correctLot(db, officer, lotId, { ...seen, productionMark: 'W32' })
    await expect(correctLot(db, officer, lotId, { ...seen, productionMark: 'W33' })).rejects.toMatchObject(conflict)
    expect((await factsOf(db, lotId)).announced.productionMark).toBe('W32')
  })
})

describe('a lot at the dock', () => {
  test('keeps a differing count beside the announced one, and the count is its size', async () => {
    const lotId = await announcedLot(db, three)
    const { version } = await factsOf(db, lotId)
    await receiveLot(db, inspector, lotId, { version, size: 21, cartons: 3, cordsInCarton: 10, note: 'three short' })
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      state: 'received',
      size: 21,
      announced: { size: 24 },
      received: { size: 21, difference: -3, note: 'three short', by: inspector.name },
      next: { act: 'plan', role: 'officer' },
    })
  })

  test('may be counted again until the plan is frozen', async () => {
    const lotId = await receivedLot(db, three)
    const { version } = await factsOf(db, lotId)
    await receiveLot(db, inspector, lotId, { version, size: 23, cartons: 3, cordsInCarton: 10, note: '' })
    expect((await factsOf(db, lotId)).audit[0]).toMatchObject({
      action: 'lot.received',
      detail: { size: 23, before: 24 },
    })
    const planned = await plannedLot(db, three)
    const again = { version: (await factsOf(db, planned)).version, size: 24, cartons: 3, cordsInCarton: 10, note: '' }
    await expect(receiveLot(db, inspector, planned, again)).rejects.toMatchObject(conflict)
  })

  test('is the warehouse inspector’s to receive, within what a lot can be', async () => {
    const lotId = await announcedLot(db, three)
    const count = { version: 1, size: 24, cartons: 3, cordsInCarton: 10, note: '' }
    for (const other of [officer, manager])
      await expect(receiveLot(db, other, lotId, count)).rejects.toMatchObject(forbidden)
    await expect(receiveLot(db, inspector, lotId, { ...count, size: 0 })).rejects.toMatchObject(invalid('size'))
    await expect(receiveLot(db, inspector, lotId, { ...count, size: 31 })).rejects.toMatchObject(invalid('cartons'))
    await expect(receiveLot(db, inspector, 999_999, count)).rejects.toMatchObject({ kind: 'missing' })
  })
})

describe('a lot withdrawn', () => {
  test.each([announcedLot, receivedLot, plannedLot, drawnLot])('stays readable with its reason: %o', async (make) => {
    const lotId = await make(db, three)
    const { version } = await factsOf(db, lotId)
    await withdrawLot(db, manager, lotId, { version, reason: 'sent back untested' })
    const facts = await factsOf(db, lotId)
    expect(facts).toMatchObject({
      state: 'withdrawn',
      withdrawal: { reason: 'sent back untested', by: manager.name },
      next: undefined,
    })
    expect(facts.audit[0]?.action).toBe('lot.withdrawn')
  })

  test('is the manager’s act, with a reason, on the page as it now is', async () => {
    const lotId = await announcedLot(db, three)
    const withdrawal = { version: 1, reason: 'entered twice' }
    for (const other of [officer, inspector])
      await expect(withdrawLot(db, other, lotId, withdrawal)).rejects.toMatchObject(forbidden)
    await expect(withdrawLot(db, manager, lotId, { version: 1, reason: ' ' })).rejects.toMatchObject(invalid('reason'))
    await expect(withdrawLot(db, manager, lotId, { ...withdrawal, version: 2 })).rejects.toMatchObject(conflict)
    await withdrawLot(db, manager, lotId, withdrawal)
    await expect(
      receiveLot(db, inspector, lotId, { version: 2, size: 24, cartons: 3, cordsInCarton: 10, note: '' }),
    ).rejects.toMatchObject(conflict)
  })
})
