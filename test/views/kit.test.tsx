// The form kit, the table, the marks and the frame of every page.
import { describe, expect, test } from 'vitest'
import { ChoiceField, Field, FormKey, ProblemSummary, Select, TextArea, Version } from '../../views/form.tsx'
import { Page } from '../../views/layout.tsx'
import { State } from '../../views/marks.tsx'
import { DataTable } from '../../views/table.tsx'
import { textOf } from '../support/page-text.ts'

const html = (page: unknown) => String(page)

describe('a field', () => {
  test('keeps what was typed, says what is wrong beside it, and ties the two together', () => {
    const field = html(<Field name="size" label="Lot size" hint="cords" value={'<"&'} problem="A whole number" />)
    expect(field).toContain('value="&lt;&quot;&amp;"')
    expect(field).toContain('<label for="field-size">Lot size</label>')
    expect(field).toContain('aria-invalid="true"')
    expect(field).toContain('aria-describedby="field-size-hint field-size-problem"')
    expect(field).toMatch(/<p class="problem" id="field-size-problem">A whole number<\/p>/)
  })

  test('without a problem claims none', () => {
    const field = html(<Field name="size" label="Lot size" value="480" />)
    expect(field).not.toContain('aria-invalid')
    expect(field).not.toContain('aria-describedby')
  })

  test('of several lines keeps its text as text', () => {
    expect(html(<TextArea name="reason" label="Reason" value="</textarea><b>" />)).toContain(
      '&lt;/textarea&gt;&lt;b&gt;',
    )
  })

  test('of one among few or many keeps the choice, and makes none of its own', () => {
    const options = [
      { value: 'above', label: 'above the limit' },
      { value: 'short', label: 'short of the limit' },
    ]
    const open = html(<ChoiceField name="side" label="Crosstalk" options={options} />)
    expect(open).not.toContain('checked')
    const chosen = html(<ChoiceField name="side" label="Crosstalk" options={options} value="short" />)
    expect(chosen).toMatch(/value="short" checked/)
    expect(html(<Select name="side" label="Crosstalk" options={options} value="short" />)).toMatch(
      /value="short" selected/,
    )
  })

  test('that nobody sees carries the key and the version', () => {
    expect(html(<FormKey value="k" />)).toBe('<input type="hidden" name="key" value="k"/>')
    expect(html(<Version value={3} />)).toBe('<input type="hidden" name="version" value="3"/>')
  })
})

describe('the summary of problems', () => {
  test('leads to each field, and is not there where nothing is wrong', () => {
    const summary = html(<ProblemSummary problems={{ size: 'A whole number', reason: 'Give one' }} />)
    expect(textOf(summary)).toContain('2 fields need correcting. Nothing was done.')
    expect(summary).toContain('<a href="#field-size">A whole number</a>')
    expect(html(<ProblemSummary problems={{}} />)).toBe('')
    expect(html(<ProblemSummary problems={undefined} />)).toBe('')
  })
})

describe('a table', () => {
  test('names each number in its row, for screens where the head is out of sight', () => {
    const columns = [{ head: 'Way' }, { head: 'Slip through, of 100', short: 'Slip' }, { head: 'Sent back' }]
    const table = html(<DataTable columns={columns} rows={[{ cells: ['None allowed', 5, 45], picked: true }]} />)
    expect(table).toContain('<th scope="row">None allowed</th>')
    expect(table).toContain('<td data-label="Slip">5</td>')
    expect(table).toContain('<td data-label="Sent back">45</td>')
    expect(table).toContain('<tr class="pick">')
  })
})

describe('a state', () => {
  test.each([
    ['conforms', 'conforms'],
    ['does-not-conform', 'does not conform'],
    ['marginal', 'marginal'],
    ['not-tested', 'not tested'],
  ] as const)('%s has its word and a shape', (state, word) => {
    const mark = html(<State state={state} />)
    expect(textOf(mark)).toBe(word)
    expect(mark).toContain(`class="state ${state}"`)
    expect(mark).toMatch(/<svg.*<(circle|path)/)
  })

  test('differs in shape from every other', () => {
    const states = ['conforms', 'does-not-conform', 'marginal', 'not-tested'] as const
    const shapes = states.map((state) => /<svg.*<\/svg>/s.exec(html(<State state={state} />))?.[0])
    expect(new Set(shapes).size).toBe(4)
  })
})

describe('a page', () => {
  const manager = { name: 'Ida Brook', role: 'manager' as const }
  const inspector = { name: 'Per Moss', role: 'inspector' as const }

  test('names itself, its language, and the way on, to a reader who is not signed in', () => {
    const page = html(<Page title="Lots">text</Page>)
    expect(page.startsWith('<!doctype html><html lang="en">')).toBe(true)
    expect(page).toContain('<title>Lots · Cordsift</title>')
    expect(page).toContain('href="/sign-in"')
    expect(page).not.toContain('href="/lots"')
    expect(page).not.toMatch(/\sstyle=|<style|<script(?! src=)/)
  })

  test('offers the people to a manager only, and to everybody the way out', () => {
    expect(html(<Page title="Lots" viewer={manager} />)).toContain('href="/people"')
    expect(html(<Page title="Lots" viewer={inspector} />)).not.toContain('href="/people"')
    expect(html(<Page title="Lots" viewer={inspector} />)).toMatch(/<form[^>]*method="post" action="\/sign-out"/)
    expect(textOf(html(<Page title="Lots" viewer={inspector} />))).toContain('Per Moss, inspector')
  })

  test('says on every page of an example that it is one', () => {
    const firm = { name: 'Lantern & Quay', example: true }
    expect(textOf(html(<Page title="Lots" firm={firm} />))).toContain('An example: Lantern & Quay, its suppliers')
    expect(html(<Page title="Lots" firm={{ ...firm, example: false }} />)).not.toContain('An example')
  })

  test('marks where the reader is', () => {
    expect(html(<Page title="Lots" viewer={manager} current="lots" />)).toMatch(/href="\/lots" aria-current="page"/)
  })
})
