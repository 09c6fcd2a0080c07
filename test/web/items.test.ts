// The register of items as its pages answer.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { type Client, testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)
let officer: Client
let inspector: Client
beforeAll(async () => {
  officer = await appAs(three.officer)
  inspector = await appAs(three.inspector)
})

let names = 0
const form = (changes: Record<string, string> = {}) => ({
  key: randomUUID(),
  name: `Grey cord ${++names}`,
  categoryClaimed: 'Category 6A',
  cordLimit: 'Cord limit of the contract, second edition',
  lengthMetres: '2,5',
  marginalPolicy: 'lenient',
  crosstalkAccuracy: '1,2',
  returnLossAccuracy: '1.50',
  tooMany: '0,5 %',
  catchOf100: '95',
  costTest: '1,30',
  costEscape: '85',
  costReturn: '200.5',
  ...changes,
})

async function defined(changes: Record<string, string> = {}): Promise<string> {
  const answer = await officer.post('/items', form(changes))
  return answer.headers.get('location') ?? ''
}

describe('an item', () => {
  test('is kept with every digit that was typed, comma or point, and costs in whole cents', async () => {
    const page = textOf(await (await inspector.get(await defined())).text())
    for (const said of [
      'Length 2.5 m',
      '±1.2 dB',
      '±1.50 dB',
      '0.5 % of the lot',
      'EUR 1.30',
      'EUR 85.00',
      'EUR 200.50',
    ])
      expect(page).toContain(said)
    expect(page).toContain('Lenient: a marginal cord counts as conforming')
    expect(page).not.toContain('Change this item')
  })

  test.each([
    [{ name: ' ' }, 'Give the item a name'],
    [{ lengthMetres: '1e9' }, 'Type the length in metres'],
    [{ lengthMetres: '101' }, 'above 0 and at most 100 m'],
    [{ crosstalkAccuracy: '-1' }, 'from 0 to 20 dB'],
    [{ returnLossAccuracy: 'NaN' }, 'Type the accuracy in dB'],
    [{ tooMany: '0' }, 'Too many is a whole number of cords such as 5, or a share such as 1%'],
    [{ catchOf100: '100' }, 'more than 0 and fewer than 100'],
    [{ countDifferencePercent: '101' }, 'A percentage from 0 to 100'],
    [{ groupSize: '1' }, 'A group has from 2 to 1000 cords'],
    [{ groupSize: '7.5' }, 'Type a whole number of cords, such as 30'],
    [{ afterRejection: 'burn' }, 'Choose what happens to a rejected lot'],
    [{ marginalPolicy: '' }, 'Choose how marginal cords count'],
    [{ costTest: '1.305' }, 'Type an amount such as 1.30'],
    [{ costReturn: '-3' }, 'Type an amount such as 1.30'],
  ])('with %j is asked for again beside the field, and what was typed is kept', async (changes, sentence) => {
    const answer = await officer.post('/items', form({ cordLimit: 'A limit of ours', ...changes }))
    expect(answer.status).toBe(422)
    const page = await answer.text()
    expect(textOf(page)).toContain(sentence)
    expect(page).toContain('value="A limit of ours"')
    expect(textOf(await (await officer.get('/items')).text())).not.toContain('A limit of ours')
  })

  test('says what follows a rejection and how far a count may differ: returned and 2 % unless it says otherwise', async () => {
    const path = await defined()
    const page = async () => textOf(await (await inspector.get(path)).text())
    expect(await page()).toContain(
      'A lot that the plan rejects is returned A count may differ from the announced one by 2 %',
    )
    const change = form({ version: '1', afterRejection: 'screen', countDifferencePercent: '0,5' })
    expect((await officer.post(path, change)).status).toBe(303)
    expect(await page()).toContain(
      'A lot that the plan rejects is screened A count may differ from the announced one by 0.5 %',
    )
  })

  test('says how many cords a group has: 30 unless it says otherwise', async () => {
    const path = await defined()
    const page = async () => textOf(await (await inspector.get(path)).text())
    expect(await page()).toContain('Cord by cord: a group 30 cords')
    expect((await officer.post(path, form({ version: '1', groupSize: '24' }))).status).toBe(303)
    expect(await page()).toContain('Cord by cord: a group 24 cords')
  })

  test('sent twice is one item, and a second one of its name is refused', async () => {
    const sent = form()
    const first = await officer.post('/items', sent)
    expect((await officer.post('/items', sent)).headers.get('location')).toBe(first.headers.get('location'))
    const same = await officer.post('/items', { ...sent, key: randomUUID() })
    expect(same.status).toBe(422)
    expect(textOf(await same.text())).toContain(`There is an item called ${sent.name} already`)
  })

  test('is changed on the version that was seen', async () => {
    const path = await defined()
    const change = form({ version: '1', tooMany: '7' })
    expect((await officer.post(path, { ...change, tooMany: 'x' })).status).toBe(422)
    expect((await officer.post(path, change)).status).toBe(303)
    expect(textOf(await (await officer.get(path)).text())).toContain('Too many 7 cords')
    expect((await officer.post(path, form({ version: '1' }))).status).toBe(409)
  })

  test('is the officer’s to define and to change', async () => {
    const path = await defined()
    expect((await inspector.get('/items/new')).status).toBe(403)
    expect((await inspector.post('/items', form())).status).toBe(403)
    expect((await inspector.post(path, form({ version: '1' }))).status).toBe(403)
    expect((await inspector.get('/items/999')).status).toBe(404)
  })
})
