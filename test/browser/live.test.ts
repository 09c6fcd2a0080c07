// The first page's answer follows what is typed: the address is replaced, focus and open folds stay, the last word wins.
import { expect, test } from 'vitest'
import { surf } from '../support/browser.ts'
import { freshDatabase } from '../support/database.ts'

const { db } = await freshDatabase()
const { visit, complaints } = await surf(db)

// C(475, 216) / C(480, 216) = .0497 of lots with 5 pass 216 of 480, by whole numbers: 216 is the smallest such sample.
test('the answer follows the fields, and nothing else of the page moves', async () => {
  const page = await visit({})
  await page.goto('/')
  const before = await page.evaluate<number>('history.length')
  await page.locator('summary', { hasText: 'Bench time and costs' }).click()
  await page.locator('#field-limit').fill('5')
  await page.locator('#field-lot').fill('480')
  await page.getByText('Test 216 of the 480 cords. The plan allows none.').waitFor()
  expect(await page.evaluate('document.activeElement.id')).toBe('field-lot')
  expect(await page.getByLabel('Cords tested in an hour').isVisible()).toBe(true)
  expect(new URL(page.url()).searchParams.get('lot')).toBe('480')
  expect(await page.evaluate<number>('history.length')).toBe(before)
  expect(await page.locator('.answer').getAttribute('role')).toBe('status')
  expect(await page.getByText('This is an example').count()).toBe(0)
  expect(complaints).toEqual([])
})

test('an older answer never overtakes a newer one', async () => {
  const page = await visit({})
  await page.goto('/')
  // the first answer is held back until the second has come
  let held: (() => Promise<void>) | undefined
  await page.route('**/?lot=300&**', (route) => {
    held = () => route.continue()
  })
  await page.locator('#field-lot').fill('300')
  await expect.poll(() => held !== undefined, { timeout: 5000 }).toBe(true)
  await page.locator('#field-lot').fill('480')
  await page.getByText(/^Test \d+ of the 480 cords/).waitFor()
  await held?.().catch(() => {}) // the page has given that request up
  await page.waitForTimeout(500)
  expect(await page.locator('.answer').textContent()).toContain('of the 480 cords')
})

test('what cannot be read is said beside its field, and the page goes on from there', async () => {
  const page = await visit({})
  await page.goto('/')
  await page.locator('#field-limit').fill('x')
  await page.locator('#field-limit-problem').waitFor()
  expect(await page.evaluate('document.activeElement.id')).toBe('field-limit')
  await page.locator('#field-limit').fill('12')
  await page.getByText('Test 132 of the 600 cords. The plan allows none.').waitFor()
})
