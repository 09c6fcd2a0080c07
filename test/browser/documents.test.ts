// The printed pages of a decided lot: what they say, and how many sheets Chromium makes of them on A4 and Letter.
import { describe, expect, test } from 'vitest'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { mainText, surf } from '../support/browser.ts'
import { freshDatabase } from '../support/database.ts'
import { signature, testedLot } from '../support/lot.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { visit, complaints } = await surf(db)

const concession = {
  riskBearer: 'Ida Keel, Quay Test House; letter of 3 May',
  use: 'Indicator boards',
  cords: 22,
  until: '2027-03-31',
}

/** Of 24 cords 6 are tested, with so many nonconforming. */
async function decided(found: number, choice: DecisionChoice): Promise<number> {
  const lotId = await testedLot(db, three, found)
  await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId, 'As agreed')), ...choice })
  return lotId
}

/** Sheets of a PDF: its page objects (ISO 32000-1, 7.7.3.3). */
const sheetsOf = (pdf: Buffer) => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0

describe.each([
  {
    what: 'release',
    found: 0,
    choice: { outcome: 'accepted' } as const,
    says: ['24 cords released for use.', 'at most'],
  },
  {
    what: 'concession',
    found: 2,
    choice: { outcome: 'conceded', concession } as const,
    says: ['22 cords released by concession', 'Ida Keel, Quay Test House; letter of 3 May', 'until 31 March 2027'],
  },
  {
    what: 'return',
    found: 2,
    choice: { outcome: 'returned' } as const,
    says: ['24 cords go back: the lot is not accepted.'],
  },
])('the note of a $what', ({ found, choice, says }) => {
  test('says what was decided and what travels, on one sheet', async () => {
    const lotId = await decided(found, choice)
    const page = await visit({ as: three.manager })
    await page.goto(`/lots/${lotId}/note`)
    const text = await mainText(page)
    for (const sentence of says) expect(text).toContain(sentence)
    for (const format of ['A4', 'Letter']) expect(sheetsOf(await page.pdf({ format }))).toBe(1)
    expect(complaints).toEqual([])
  })
})

test('the notice tells the supplier limit, rule, readings and what to answer by when, and never says defective', async () => {
  const lotId = await decided(2, { outcome: 'returned' })
  const page = await visit({ as: three.manager })
  await page.goto(`/lots/${lotId}/notice?by=2027-01-15`)
  const text = await mainText(page)
  for (const said of [
    'This lot is not accepted.',
    'the cord limit of the contract, second edition',
    'a marginal cord counts as not conforming',
    'Please answer by 15 January 2027',
    'Why was it not detected before delivery?',
  ])
    expect(text).toContain(said)
  expect(text).not.toMatch(/defective/i)
  expect(await page.locator('tbody tr').count()).toBe(2)
  for (const format of ['A4', 'Letter']) expect(sheetsOf(await page.pdf({ format }))).toBeLessThanOrEqual(2)
})

test('a lot that is accepted has no notice, and one that is open no note; both lead on to the lot', async () => {
  const open = await testedLot(db, three, 0)
  const accepted = await decided(0, { outcome: 'accepted' })
  const page = await visit({ as: three.officer })
  for (const path of [`/lots/${open}/note`, `/lots/${accepted}/notice`]) {
    expect((await page.goto(path))?.status()).toBe(409)
    await page.getByRole('link', { name: /^Lot \d+$/ }).waitFor()
  }
})
