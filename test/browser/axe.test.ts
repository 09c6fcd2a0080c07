// Every page in a real browser: nothing that axe finds wrong, nothing that scrolls sideways, no style of its own.
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import type { Person } from '../../app/terms/person.ts'
import { axe, sideways, surf, type View } from '../support/browser.ts'
import { freshDatabase } from '../support/database.ts'
import { everyPage } from './pages.ts'

const { db } = await freshDatabase()
const pages = await everyPage(db)
const { visit } = await surf(db)

// axe-core checks rules of WCAG 2.2 by an engine that is not ours; 390 px is the width of a common telephone (common practice, no source).
describe.each([
  { width: 390, colorScheme: 'light' as const },
  { width: 1280, colorScheme: 'dark' as const },
])('at $width px, $colorScheme', (view) => {
  test.each(pages)('$path of $as.role', async ({ path, as }) => {
    const page = await windowOf(view, as)
    await page.goto(path)
    expect(await axe(page)).toEqual([])
    expect(await sideways(page)).toBe(0)
    expect(await page.locator('[style]').count()).toBe(0)
  })
})

/** One window a person and view: a new one for every page would take longer than the page. */
const windows = new Map<string, Promise<Page>>()

function windowOf(view: View, as: Person | undefined): Promise<Page> {
  const name = `${as?.name} at ${view.width}`
  const opened = windows.get(name) ?? visit({ ...view, as, bypassCSP: true })
  windows.set(name, opened)
  return opened
}

test('axe would say what is wrong', async () => {
  const page = await visit({ bypassCSP: true })
  await page.setContent('<html lang="en"><title>t</title><main><h1>h</h1><img src="x"></main></html>')
  expect((await axe(page)).map(({ id }) => id)).toEqual(['image-alt'])
})
