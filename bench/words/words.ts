// npm run bench:words: words and screens of the example's pages in Chromium beside what each kind of page may have; CHROMIUM names another browser.
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { test } from 'vitest'
import { demonstration } from './demonstration.ts'

type Role = 'officer' | 'inspector' | 'manager'
type Sheet = { kind: string; path: string; as: Role; budget: number }

/** Between header and footer, panels included, folds closed. Of the list of lots so many a lot come to it. */
const budgets = {
  advisor: 400,
  proof: 260,
  plan: 420,
  lot: 300,
  decision: 320,
  supplier: 420,
  comparison: 300,
  percentage: 420,
  lots: 80,
}
const wordsALot = 18

/** In the page: pictures away and a folded panel open, as it stands beside the answer; then what can be read. */
const wordsOfPage = `
  for (const picture of document.querySelectorAll('main svg')) picture.remove()
  for (const panel of document.querySelectorAll('details.panel')) panel.open = true
  document.querySelector('main').innerText.split(/\\s+/).filter((word) => /[\\p{L}\\p{N}]/u.test(word)).length
`

let browser: Browser

test('words and screens', async () => {
  const service = await demonstration()
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-background-networking'],
  })
  try {
    await measureAll(service.address)
  } finally {
    await browser.close()
    await service.end()
  }
})

async function measureAll(address: string): Promise<void> {
  let over = 0
  console.log('kind, path: words of what it may have; screens at 1280 × 900 and 390 × 844')
  const [wide, narrow] = [await windowsOf(address, 1280), await windowsOf(address, 390)]
  for (const sheet of await sheets(wide.officer, wide.manager)) {
    const { words, screens } = await measure(wide[sheet.as], sheet.path)
    const phone = await measure(narrow[sheet.as], sheet.path)
    if (words > sheet.budget) over++
    console.log(
      `${sheet.kind}, ${sheet.path}: ${words} of ${sheet.budget}${words > sheet.budget ? ', OVER' : ''}; ${screens.toFixed(1)} and ${phone.screens.toFixed(1)}`,
    )
  }
  console.log(`${over} over`)
}

/** A window of this width for each role, signed in. */
async function windowsOf(address: string, width: number): Promise<Record<Role, Page>> {
  const signedIn = async (role: Role) => {
    const context: BrowserContext = await browser.newContext({
      baseURL: address,
      viewport: { width, height: width < 800 ? 844 : 900 },
    })
    const page = await context.newPage()
    await page.goto('/sign-in')
    await page
      .locator('form', { hasText: new RegExp(role) })
      .getByRole('button', { name: /Marsh|Tarn|Quill/ })
      .click()
    await page.waitForURL('**/lots')
    return page
  }
  return {
    officer: await signedIn('officer'),
    inspector: await signedIn('inspector'),
    manager: await signedIn('manager'),
  }
}

/** Every page that has a budget: those of each lot, supplier and plan that the example shows. */
async function sheets(page: Page, manager: Page): Promise<Sheet[]> {
  const lots = await linksOn(page, '/lots', /^\/lots\/\d+$/)
  const suppliers = await linksOn(page, '/suppliers', /^\/suppliers\/\d+$/)
  const plans = await stepsOf(page, lots, 'plan')
  const decisions = await stepsOf(manager, lots, 'decision')
  const all = (kind: keyof typeof budgets, as: Role, paths: string[]) =>
    paths.map((path) => ({ kind, path, as, budget: budgets[kind] }))
  return [
    ...all('advisor', 'officer', ['/', '/?lot=480&limit=5']),
    ...all('proof', 'officer', ['/proof', '/proof?lot=480&tested=54&found=2']),
    ...all('plan', 'officer', plans),
    ...all('lot', 'officer', lots),
    ...all('decision', 'manager', decisions),
    ...all('supplier', 'officer', suppliers),
    ...all('comparison', 'manager', ['/suppliers/comparison']),
    ...all('percentage', 'manager', ['/percentage']),
    { kind: 'lots', path: '/lots', as: 'manager', budget: budgets.lots + wordsALot * lots.length },
  ]
}

async function linksOn(page: Page, path: string, which: RegExp): Promise<string[]> {
  await page.goto(path)
  const links = await page.locator('main a').evaluateAll((all) => all.map((each) => each.getAttribute('href') ?? ''))
  return [...new Set(links)].filter((link) => which.test(link))
}

/** The pages of this step, for those lots whose form of it can be sent or read now. */
async function stepsOf(page: Page, lots: string[], step: 'plan' | 'decision'): Promise<string[]> {
  const found: string[] = []
  for (const lot of lots) {
    const answer = await page.goto(`${lot}/${step}`)
    if (answer?.status() === 200) found.push(`${lot}/${step}`)
  }
  return found
}

async function measure(page: Page, path: string): Promise<{ words: number; screens: number }> {
  const answer = await page.goto(path)
  if (answer?.status() !== 200) throw new Error(`${path} answered ${answer?.status()}`)
  const height = await page.evaluate<number>('document.documentElement.scrollHeight')
  const words = await page.evaluate<number>(wordsOfPage)
  return { words, screens: height / (page.viewportSize()?.height ?? 900) }
}
