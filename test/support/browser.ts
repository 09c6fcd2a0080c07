// A real browser against the real service: for what only a browser can show.
import { createServer } from 'node:http'
import { createRequire } from 'node:module'
import { getRequestListener } from '@hono/node-server'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll } from 'vitest'
import { z } from 'zod'
import { openSessionFor } from '../../app/people/sessions/sign-in.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'
import { testApp } from './app.ts'
import { PASSWORD } from './people.ts'

export type View = {
  width?: number
  colorScheme?: 'light' | 'dark'
  javaScript?: boolean
  /** already signed in, without the sign-in page */
  as?: Person | undefined
  /** for tools that a test puts into the page; the service's own policy would keep them out */
  bypassCSP?: boolean
}

export type Surfing = {
  address: string
  /** what pages complained of: errors in scripts, and whatever the policy refused */
  complaints: string[]
  visit(view: View): Promise<Page>
}

/** Serves the database to a Chromium of this test file; CHROMIUM names another one than Debian's. Closed after the file. */
export async function surf(db: Db): Promise<Surfing> {
  const { app } = testApp(db)
  const server = createServer(getRequestListener(app.fetch))
  const address = await new Promise<string>((resolve) => {
    server.listen(0, '127.0.0.1', () => {
      const bound = server.address()
      resolve(`http://127.0.0.1:${typeof bound === 'object' && bound !== null ? bound.port : 0}`)
    })
  })
  const browser = await launch()
  afterAll(async () => {
    await browser.close()
    server.closeAllConnections()
    server.close()
  })
  const complaints: string[] = []
  return { address, complaints, visit: (view) => visit(browser, { db, address, complaints }, view) }
}

/** Chromium refuses its sandbox to root, and these pages are our own. */
function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-background-networking'],
  })
}

type Served = { db: Db; address: string; complaints: string[] }

async function visit(browser: Browser, { db, address, complaints }: Served, view: View): Promise<Page> {
  const { width = 1280, colorScheme = 'light', javaScript = true, bypassCSP = false } = view
  const context = await browser.newContext({
    baseURL: address,
    viewport: { width, height: 844 },
    colorScheme,
    javaScriptEnabled: javaScript,
    bypassCSP,
  })
  if (view.as) await context.addCookies([{ name: 'cordsift', value: await openSessionFor(db, view.as), url: address }])
  const page = await context.newPage()
  page.setDefaultTimeout(20_000)
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('console', (message) => {
    // An answer of 409 or 422 is told on the console too; it is the page's own business.
    if (message.type() === 'error' && !/the server responded with a status of 4(09|22)/.test(message.text()))
      complaints.push(message.text())
  })
  return page
}

/** Signs in by the page for it, as a person does. */
export async function signIn(page: Page, name: string): Promise<void> {
  await page.goto('/sign-in')
  await fillIn(page, { 'Your name': name, Password: PASSWORD })
  await press(page, 'Sign in')
  await page.getByRole('button', { name: 'Sign out' }).waitFor()
}

/** Types into the fields with these labels. */
export async function fillIn(page: Page, typed: Record<string, string>): Promise<void> {
  for (const [label, value] of Object.entries(typed)) await page.getByLabel(label, { exact: true }).fill(value)
}

export async function press(page: Page, button: string | RegExp): Promise<void> {
  await page.getByRole('button', { name: button, exact: true }).click()
}

/** Follows a link and waits until its page is there whole. */
export async function follow(page: Page, link: string): Promise<void> {
  const found = page.getByRole('link', { name: link })
  const address = new URL((await found.getAttribute('href')) ?? '', page.url())
  await found.click()
  await page.waitForURL(address.href)
}

/** What a reader reads of the page's main part, in one line; what is folded away or hidden is not read. */
export async function mainText(page: Page): Promise<string> {
  return z
    .string()
    .parse(await page.evaluate("document.querySelector('main').innerText"))
    .replace(/\s+/g, ' ')
}

const violations = z.array(z.object({ id: z.string(), nodes: z.array(z.string()) }))

/** Rules of accessibility that the page breaks, each with the places; the page needs bypassCSP. */
export async function axe(page: Page): Promise<z.infer<typeof violations>> {
  await page.addScriptTag({ path: createRequire(import.meta.url).resolve('axe-core/axe.min.js') })
  const found: unknown = await page.evaluate(
    'axe.run().then(({ violations }) => violations.map(({ id, nodes }) => ({ id, nodes: nodes.map((node) => node.html) })))',
  )
  return violations.parse(found)
}

/** How far the page can be scrolled sideways, in pixels. */
export async function sideways(page: Page): Promise<number> {
  const root = 'document.documentElement'
  return z.number().parse(await page.evaluate(`${root}.scrollWidth - ${root}.clientWidth`))
}
