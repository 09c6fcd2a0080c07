// Whether a lot belongs to a series, from the form to the lot's page.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { factsOf } from '../../app/lots/record/lot.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)

const { supplier, item } = await factsOf(db, await announcedLot(db, three))
const form = (isolated: Record<string, string>) => ({
  key: randomUUID(),
  supplierId: String(supplier.id),
  itemId: String(item.id),
  size: '24',
  cartons: '3',
  cordsInCarton: '10',
  productionMark: 'W31',
  purchaseOrder: 'PO 7',
  ...isolated,
})

describe('a lot that stands alone', () => {
  test.each([
    [{}, false],
    [{ isolated: 'no' }, false],
    [{ isolated: 'yes' }, true],
  ])('is announced by %j: %s', async (said, isolated) => {
    const officer = await appAs(three.officer)
    const done = await officer.post('/lots', form(said))
    expect(done.status).toBe(303)
    const path = done.headers.get('location') ?? ''
    expect((await factsOf(db, Number(path.split('/').at(-1)))).announced).toMatchObject({ isolated })
    expect(textOf(await (await officer.get(path)).text()).includes('none: the lot stands alone')).toBe(isolated)
  })

  test('is corrected, and the form shows how it stands', async () => {
    const lotId = await announcedLot(db, three)
    const officer = await appAs(three.officer)
    const { version } = await factsOf(db, lotId)
    const { key, ...rest } = form({ isolated: 'yes' })
    const done = await officer.post(`/lots/${lotId}/correction`, { ...rest, version: String(version) })
    expect(done.status).toBe(303)
    expect((await factsOf(db, lotId)).announced.isolated).toBe(true)
    const page = await (await officer.get(`/lots/${lotId}/correction`)).text()
    expect(page).toMatch(/value="yes" checked/)
  })

  test('is nothing that one can say otherwise', async () => {
    const answer = await (await appAs(three.officer)).post('/lots', form({ isolated: 'perhaps' }))
    expect(answer.status).toBe(422)
    expect(textOf(await answer.text())).toContain('Say whether the lot stands alone')
  })
})
