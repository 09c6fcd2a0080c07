// Words that do not come back: on no page of the service, for whoever may see it, folded or not.
import { describe, expect, test } from 'vitest'
import { everyPage } from '../browser/pages.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { textOf } from '../support/page-text.ts'

const { db } = await freshDatabase()
const pages = await everyPage(db)
const { anybody, appAs } = testApp(db)

/** Each with what is said instead, in docs/vocabulary.md. */
const gone = [
  /\bforetold\b|\bforetell/i,
  /\breckon/i,
  /\bmend(ed|ing|s)?\b/i,
  /\bnone may\b/i,
  /\bmay not conform\b/i,
  /\bwhoever\b/i,
  /\bworse than usual\b/i,
  /\bdrawn together\b/i,
  /\bno matter of\b/i,
  /\blikeness\b/i,
  /\brightly\b/i,
  /\bnone not conforming\b/i,
  /\bpractically certain\b/i,
  /\bdefective\b/i,
  /\bfrom memory\b/i,
]

/** Buttons and links that speak to one person by name say what they do. */
const beSomebody = /^Be [A-Z]/

describe.each(pages)('$path of $as.role', ({ path, as }) => {
  test('says none of the words that are gone', async () => {
    const client = as ? await appAs(as) : anybody
    const html = await (await client.get(path)).text()
    const text = textOf(html)
    expect(text.length).toBeGreaterThan(50)
    expect(gone.filter((word) => word.test(text)).map(String)).toEqual([])
    const buttons = [...html.matchAll(/<button[^>]*>(.*?)<\/button>/gs)].map(([, inner = '']) => textOf(inner))
    expect(buttons.filter((button) => beSomebody.test(button))).toEqual([])
  })
})

test('a page that said one of them would be found', () => {
  expect(gone.filter((word) => word.test('As foretold, none may fail; 2 things are to be mended.')).length).toBe(3)
})
