// The register of items.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { changeItem, defineItem } from '../../app/register/define-item.ts'
import type { ItemTerms } from '../../app/register/item-terms.ts'
import { itemOf, itemsOf } from '../../app/register/items.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot, terms } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three
const define = (change: Partial<ItemTerms> = {}, key = randomUUID()) =>
  defineItem(db, officer, { ...terms, name: `Cord ${randomUUID()}`, ...change, key })

describe('an item', () => {
  test('keeps what the buyer says, digit by digit', async () => {
    const said = {
      name: 'Slate cord',
      lengthMetres: '1.50',
      crosstalkAccuracy: '1.20',
      returnLossAccuracy: '0',
      tooMany: '0,5 %',
      catchOf100: '97.5',
    }
    const id = await define(said)
    expect(await itemOf(db, id)).toMatchObject({ ...terms, ...said, tooMany: '0.5%', id, version: 1, lots: 0 })
    const told = await owner`select action, detail->>'tooMany' as too_many from audit where subject = ${`item/${id}`}`
    expect(told).toEqual([{ action: 'item.defined', too_many: '0.5%' }])
  })

  test('counts its lots', async () => {
    await announcedLot(db, three)
    const items = await itemsOf(db)
    expect(items.filter((item) => item.lots === 1)).toHaveLength(1)
    expect(items.filter((item) => item.lots > 1)).toHaveLength(0)
  })

  test('is the procurement officer’s to define and to change', async () => {
    const id = await define()
    for (const other of [inspector, manager]) {
      await expect(defineItem(db, other, { ...terms, key: randomUUID() })).rejects.toMatchObject({ kind: 'forbidden' })
      await expect(changeItem(db, other, id, { ...terms, key: randomUUID(), version: 1 })).rejects.toMatchObject({
        kind: 'forbidden',
      })
    }
  })

  test.each([
    { change: { name: ' ' }, field: 'name' },
    { change: { name: 'x'.repeat(121) }, field: 'name' },
    { change: { categoryClaimed: '' }, field: 'categoryClaimed' },
    { change: { cordLimit: '' }, field: 'cordLimit' },
    { change: { lengthMetres: '0' }, field: 'lengthMetres' },
    { change: { lengthMetres: '100.000000001' }, field: 'lengthMetres' },
    { change: { lengthMetres: 'NaN' }, field: 'lengthMetres' },
    { change: { crosstalkAccuracy: '-1' }, field: 'crosstalkAccuracy' },
    { change: { returnLossAccuracy: '20.01' }, field: 'returnLossAccuracy' },
    { change: { tooMany: '0' }, field: 'tooMany' },
    { change: { tooMany: '0%' }, field: 'tooMany' },
    { change: { tooMany: '101%' }, field: 'tooMany' },
    { change: { tooMany: '2.5' }, field: 'tooMany' },
    { change: { tooMany: 'some' }, field: 'tooMany' },
    { change: { catchOf100: '0' }, field: 'catchOf100' },
    { change: { catchOf100: '100' }, field: 'catchOf100' },
    { change: { costTestCents: -1 }, field: 'costTestCents' },
    { change: { costEscapeCents: 0.5 }, field: 'costEscapeCents' },
    { change: { costReturnCents: 1e12 }, field: 'costReturnCents' },
  ])('with $change is refused at $field', async ({ change, field }) => {
    await expect(define(change)).rejects.toMatchObject({ kind: 'invalid', field })
  })

  test('sent twice is one item; of two of one name at once one is refused', async () => {
    const key = randomUUID()
    const ids = await Promise.all([1, 2].map(() => define({ name: 'Ochre cord' }, key)))
    expect(ids[0]).toBe(ids[1])
    const both = await Promise.allSettled([define({ name: 'Umber cord' }), define({ name: 'UMBER cord' })])
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(both.find((one) => one.status === 'rejected')?.reason).toMatchObject({ kind: 'invalid', field: 'name' })
  })

  test('changes from the page as it is, once for a form, and the audit keeps what stood before', async () => {
    const id = await define({ name: 'Teal cord' })
    const change = { ...terms, name: 'Teal cord', marginalPolicy: 'lenient', key: randomUUID(), version: 1 } as const
    await changeItem(db, officer, id, change)
    await changeItem(db, officer, id, change)
    expect(await itemOf(db, id)).toMatchObject({ marginalPolicy: 'lenient', version: 2 })
    const told =
      await owner`select detail->'before'->>'marginalPolicy' as before from audit where subject = ${`item/${id}`} and action = 'item.changed'`
    expect(told).toEqual([{ before: 'strict' }])
    await expect(changeItem(db, officer, id, { ...change, key: randomUUID() })).rejects.toMatchObject({
      kind: 'conflict',
    })
    await expect(
      changeItem(db, officer, 999_999, { ...change, name: 'Other', key: randomUUID() }),
    ).rejects.toMatchObject({ kind: 'missing' })
  })

  test('cannot take the name of another', async () => {
    await define({ name: 'Sepia cord' })
    const id = await define({ name: 'Rust cord' })
    const change = { ...terms, name: 'SEPIA cord', key: randomUUID(), version: 1 }
    await expect(changeItem(db, officer, id, change)).rejects.toMatchObject({ kind: 'invalid', field: 'name' })
  })
})
