// A form that comes again under a key which did something else, as its page answers it.

import { randomUUID } from 'node:crypto'
import type postgres from 'postgres'
import { expect } from 'vitest'
import type { Role } from '../../app/terms/person.ts'
import type { Client } from './app.ts'
import { textOf } from './page-text.ts'

type Fields = Record<string, string | Blob>

/** first is sent under a key, to firstPath where it differs; second under the same key. */
export type TwoForms = { path: string; firstPath?: string; first: Fields; second: Fields }

export type Again = {
  form: string
  role: Role
  ready(): Promise<TwoForms>
  /** what the page shows of the second sending: values of its fields, or text */
  shows: string[]
  /** the sentence that stands on the page; that other values were taken, where none is given */
  says?: RegExp
  /** whether the page as it comes back would be taken when it is sent */
  taken: boolean
}

/** Sends the first form twice and the second once: a 409 that does nothing and shows what was typed. Returns that page. */
export async function shownAgain(client: Client, owner: postgres.Sql, row: Again, forms: TwoForms): Promise<string> {
  const { path, firstPath, first, second } = forms
  const key = randomUUID()
  const done = await client.post(firstPath ?? path, { key, ...first })
  const again = await client.post(firstPath ?? path, { key, ...first })
  expect([done.status, again.status]).toEqual([303, 303])
  expect(again.headers.get('location')).toBe(done.headers.get('location'))
  const before = await audited(owner)
  const refused = await client.post(path, { key, ...second })
  expect(refused.status).toBe(409)
  expect(await audited(owner)).toBe(before)
  const page = await refused.text()
  expect(textOf(page)).toMatch(row.says ?? /sent before with other values, and those were taken/)
  for (const shown of row.shows) expect(page).toContain(shown)
  expect(page).not.toContain(key)
  if (typeof second.password === 'string') expect(page).not.toContain(second.password)
  return page
}

/** Sends the form of such a page: what was typed, with the hidden fields as they now are. */
export async function sendAsShown(client: Client, page: string, { path, second }: TwoForms): Promise<Response> {
  const hidden = [...page.matchAll(/name="(key|version|entryNumber)" value="([^"]+)"/g)].reverse()
  return client.post(path, { ...second, ...Object.fromEntries(hidden.map((match) => [match[1], match[2]])) })
}

/** Lines of the audit but for signing in: one for each thing done. */
async function audited(owner: postgres.Sql): Promise<number> {
  const [row] = await owner<{ n: number }[]>`select count(*)::int as n from audit where action <> 'person.signed-in'`
  return row?.n ?? 0
}
