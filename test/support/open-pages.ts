// The two open pages for tests, with their sums in this very thread.
import { Hono } from 'hono'
import type { Compute } from '../../app/compute/compute.ts'
import { advisorRoutes } from '../../app/web/advisor.tsx'
import type { Env } from '../../app/web/http/env.ts'
import { textOf } from './page-text.ts'

/** The pages with what is worked out in this very thread. */
const here: Compute = { run: async (task, input) => task.work(input), end: async () => {} }
const pages = new Hono<Env>()
pages.use(async (c, next) => {
  c.set('compute', here)
  c.set('currency', 'EUR')
  await next()
})
pages.route('/', advisorRoutes)

/** A page of the two, by its address. */
export async function openPage(path: string): Promise<{ status: number; html: string; text: string }> {
  const answer = await pages.request(path)
  const html = await answer.text()
  return { status: answer.status, html, text: textOf(html) }
}

/** What stands in a field of the form. */
export function typedIn(html: string, name: string): string | undefined {
  const input = new RegExp(`<input[^>]*\\sname="${name}"[^>]*>`).exec(html)?.[0] ?? ''
  return /\svalue="([^"]*)"/.exec(input)?.[1]
}

export function problemOf(html: string, name: string): string {
  return textOf(new RegExp(`<p class="problem" id="field-${name}-problem">(.*?)</p>`, 's').exec(html)?.[1] ?? '')
}
