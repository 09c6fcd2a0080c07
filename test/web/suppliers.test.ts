// The pages of a supplier and of all suppliers side by side, as each of the three people meets them.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot, drawnLot, recordAll, signature, type Wanted } from '../support/lot.ts'
import { rowOf, textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)
const pageAs = async (person: keyof typeof three, path: string) => (await (await appAs(three[person])).get(path)).text()

/** Decided lots of one supplier and one item, each with so many of its sample failing. */
async function supplierWith(name: string, found: number[], wanted: Wanted = {}) {
  const supplierId = await registerSupplier(db, three.officer, { key: randomUUID(), name })
  let itemId = 0
  for (const each of found) {
    const lotId = await drawnLot(db, three, wanted)
    const [lot] = await owner<[{ item_id: number }]>`select item_id from lots where id = ${lotId}`
    if (itemId === 0) itemId = lot.item_id
    await owner`update lots set supplier_id = ${supplierId}, item_id = ${itemId} where id = ${lotId}`
    await recordAll(db, three, lotId, each)
    const choice: DecisionChoice = { outcome: each > 1 ? 'returned' : 'accepted' }
    await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId, 'for the test')), ...choice })
  }
  return { supplierId, itemId }
}

describe('a supplier’s page', () => {
  let supplierId = 0
  let itemId = 0
  beforeAll(async () => {
    ;({ supplierId, itemId } = await supplierWith('Left Sock', [0, 2, 0, 2], {
      terms: { acceptanceQualityLimit: '10' },
    }))
  })

  test('says lot by lot what its samples showed, and of four lots nothing about the next', async () => {
    const page = await pageAs('inspector', `/suppliers/${supplierId}`)
    expect(textOf(page)).toMatch(/2 of 6 in lot \d+; before it 0 of 6 in lot \d+, 2 of 6 in lot \d+, 0 of 6 in lot \d+/)
    expect(textOf(page)).toContain('that takes five finished lots, and there are 4')
    const bars = page.slice(page.indexOf('id="faults-title"')).replace(/<[^>]*>/g, ' ')
    expect(bars).toMatch(/Return loss short of the limit\s+4 of 24/)
    expect(bars).toMatch(/Crosstalk short of the limit\s+0 of 24/)
    expect(textOf(page)).toContain('Mostly Return loss 4 of 24 tested cords')
  })

  test('says how strictly the series is inspected and with which lot that began', async () => {
    const page = textOf(await pageAs('officer', `/suppliers/${supplierId}`))
    expect(page).toContain('Tightened inspection. Since')
    expect(page).toContain('two of five or fewer lots in a row were not accepted')
    expect(page).toContain('recalled from memory: check it against your copy')
    // 24 cords, level II, 10 %: letter C, 5 cords, 1 may fail (MIL-STD-105E, Tables I and II-A, read).
    expect(page).toContain('5 cords, 1 allowed, normal 5 of 5 2 not accepted')
  })

  test('says what the next lot will need: by demand alone, by the standard, critical, standing alone', async () => {
    const lotId = await announcedLot(db, three, { size: 480 })
    await owner`update lots set supplier_id = ${supplierId}, item_id = ${itemId} where id = ${lotId}`
    const said = async () => textOf(await pageAs('officer', `/suppliers/${supplierId}`))
    await owner`update items set acceptance_quality_limit = null where id = ${itemId}`
    expect(await said()).toContain(
      'The item names no acceptance quality limit: no contract asks for the published standard',
    )
    expect(await said()).toContain('as the item names no acceptance quality limit; the item’s own demand counts')
    // 480 cords: letter H, and tightened at 1.0: letter J below the arrow, 80 cords, 1 (MIL-STD-105E, Table II-B, read).
    await owner`update items set acceptance_quality_limit = 1.0 where id = ${itemId}`
    expect(await said()).toContain(`Lot ${lotId}, 480 cords, needs by the standard 80 cords tested, at most 1 allowed`)
    await owner`update lots set isolated = true where id = ${lotId}`
    expect(await said()).toContain(`Lot ${lotId}, 480 cords, stands alone`)
    await owner`update items set critical = true where id = ${itemId}`
    expect(await said()).toContain(`Lot ${lotId}, 480 cords, is of a critical item: every cord is tested.`)
  })

  test('lets a manager, and nobody else, say what the rules ask for', async () => {
    const form = { key: randomUUID(), itemId: String(itemId), kind: 'reduced-wanted', reason: 'steady for a year' }
    for (const other of ['officer', 'inspector'] as const) {
      expect(await pageAs(other, `/suppliers/${supplierId}`)).not.toContain('Let the rules reduce inspection')
      expect((await (await appAs(three[other])).post(`/suppliers/${supplierId}/series`, form)).status).toBe(403)
    }
    const manager = await appAs(three.manager)
    const wrong = await manager.post(`/suppliers/${supplierId}/series`, { ...form, reason: '' })
    expect(wrong.status).toBe(422)
    expect(textOf(await wrong.text())).toContain('Give the reason')
    expect((await manager.post(`/suppliers/${supplierId}/series`, { ...form, kind: 'tightened' })).status).toBe(422)
    const done = await manager.post(`/suppliers/${supplierId}/series`, form)
    expect([done.status, done.headers.get('location')]).toEqual([303, `/suppliers/${supplierId}`])
    expect(await pageAs('manager', `/suppliers/${supplierId}`)).toContain('Do not reduce inspection any more')
  })

  test('of a supplier without a lot says that nothing is known, and of none that it is not there', async () => {
    const { supplierId: bare } = await supplierWith('Bare', [])
    expect(textOf(await pageAs('officer', `/suppliers/${bare}`))).toContain('Nothing is known of Bare yet')
    expect((await (await appAs(three.officer)).get('/suppliers/999999')).status).toBe(404)
  })
})

describe('suppliers side by side', () => {
  test('stand by name, those with five finished lots with the chance of the lowest share', async () => {
    const plan = { kind: 'single', sampleSize: 40, acceptanceNumber: 1 } as const
    await supplierWith('Blue Teapot', [0, 0, 0, 0, 0], { size: 80, plan })
    await supplierWith('Paper Boat', [30, 0, 30, 29, 31], { size: 80, plan })
    await owner`update lots set item_id = (select min(item_id) from lots)`
    const page = await pageAs('officer', '/suppliers/comparison')
    expect(textOf(page)).toContain('the next lot of Blue Teapot has the lowest share with a chance of')
    expect(rowOf(page, 'Left Sock')[3]).toBe('from five lots on')
    const names = [...page.matchAll(/href="\/suppliers\/\d+">(.*?)<\/a>/g)].map((link) => link[1])
    expect(names).toEqual(['Blue Teapot', 'Left Sock', 'Paper Boat'])
    expect(rowOf(page, 'Paper Boat')[2]).toContain('and 2 lots before these')
    // Five clean samples of 40 against four of five that fail by three quarters: well under one in ten.
    expect(rowOf(page, 'Paper Boat')[4]).toMatch(/^(\d of 100|fewer|\d of 1,000)/)
  })

  test('are of one item, and an item that is none leads nowhere', async () => {
    const [{ id } = { id: 0 }] = await owner<{ id: number }[]>`select min(item_id) as id from lots`
    for (const address of ['', '?item=', '?item=all', `?item=${id}`])
      expect(textOf(await pageAs('inspector', `/suppliers/comparison${address}`))).toContain('Of 2 suppliers of')
    expect((await (await appAs(three.officer)).get('/suppliers/comparison?item=x')).status).toBe(404)
    expect((await (await appAs(three.officer)).get('/suppliers/comparison?item=99999')).status).toBe(404)
  })
})

test('shouts where two lots differ, with the counts of both, there and on the work list', async () => {
  // the first stops at its second; the other was tested on: (0, 6), (1, 5), (2 at the last, 4) have 1, 6 · 6, 5 · 15 orders, by hand
  const { supplierId: torn } = await supplierWith('Torn Kite', [0, 6])
  const page = textOf(await pageAs('manager', `/suppliers/${torn}`))
  expect(page).toContain(
    'These lots differ more than one steady process lets them: lots so different come in 1 of 100 series',
  )
  expect(page).toContain('a steady supplier is called unsteady at most once in 100 looks')
  const list = textOf(await pageAs('officer', '/lots'))
  expect(list).toMatch(/Torn Kite, [^:]+: 6 of 6 in lot \d+; before it 0 of 6 in lot \d+: its lots differ more than/)
})
