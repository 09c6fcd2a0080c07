// The advisor, which needs no account, as a browser gets it.
import { describe, expect, test } from 'vitest'
import { openPage, problemOf, typedIn } from '../support/open-pages.ts'
import { rowOf } from '../support/page-text.ts'

describe('the advisor', () => {
  // C(588, 60) / C(600, 60) = .276 and C(588, 132) / C(600, 132) = .0497 of lots with 12 pass, by whole numbers.
  test('begins with an example and its answer, marked as one until the reader asks', async () => {
    const { status, html, text } = await openPage('/')
    expect(status).toBe(200)
    expect(typedIn(html, 'confidence')).toBe('95')
    expect(typedIn(html, 'percent')).toBe('10%')
    expect(typedIn(html, 'lot')).toBe('600')
    expect(typedIn(html, 'limit')).toBe('2 %')
    expect(text).toContain('This is an example: change it to your lot.')
    expect(text).toContain('Test 132 of the 600 cords. The plan allows none.')
    expect(text).toContain('Your 10 % lets 28 of 100 through')
    expect(text).toMatch(/Your 10 %, 60 cords: 28 Recommended, 132 cords: 5/)
    expect((await openPage('/?lot=600&limit=2%25')).text).not.toContain('This is an example')
    expect(html.startsWith('<!doctype html>')).toBe(true)
  })

  // Source of the figures on this page: exact arithmetic, checked in compare.test.ts.
  test('advises 216 of 480 where 5 are too many, and says what a tenth would do', async () => {
    const { status, html, text } = await openPage('/?lot=480&limit=5&confidence=95')
    expect(status).toBe(200)
    expect(text).toContain('Test 216 of the 480 cords. The plan allows none.')
    expect(text).toContain('lets 59 of 100 through')
    expect(text).toContain('drawn at random from the whole lot, not from the top carton')
    expect(rowOf(html, 'None allowed').slice(1)).toEqual(['216 average 78', '0', '5', '45', '0.2'])
    expect(rowOf(html, 'Your 10 %').slice(1)).toEqual(['48 average 38', '0', '59', '10', '2.9'])
    expect(rowOf(html, 'Every cord').slice(1)).toEqual(['480', '–', '0', '0', '0'])
  })

  test('advises the plan for both risks once a good lot is named: 315 with acceptance number 1', async () => {
    const { html, text } = await openPage('/?lot=480&limit=5&confidence=95&good=1&goodrisk=5')
    expect(text).toContain('Test 315 of the 480 cords. The plan allows at most 1.')
    expect(rowOf(html, 'One sample, both risks limited')[0]).toContain('recommended')
    expect(rowOf(html, 'None allowed')[0]).not.toContain('recommended')
  })

  test('says what a contract’s plan really protects against', async () => {
    const { html, text } = await openPage('/?lot=480&limit=1%25&own=50%2F1')
    expect(text).toContain('1% of 480 cords, rounded up to whole cords, is 5.')
    expect(text).toContain('The contract’s 50/1 lets 91 of 100 lots with 5 nonconforming cords through')
    expect(text).toContain('it catches 95 of 100 lots only from 43 on')
    expect(rowOf(html, 'The contract’s 50/1')[0]).toContain('only from 43')
  })

  test('shows what the reader’s own plan does, or nothing of today', async () => {
    const { html, text } = await openPage('/?lot=480&limit=5&percent=50%2F1')
    expect(text).toContain('Your 50/1 lets 91 of 100 through')
    expect(rowOf(html, 'Your 50/1')[0]).toContain('catches 95 of 100 lots only from 43')
    const nothing = await openPage('/?lot=480&limit=5&percent=')
    expect(nothing.text).toContain('no smaller single sample does.')
    expect(nothing.text).not.toContain('Your ')
    expect(nothing.text).toMatch(/No test, 0 cords: 100 Recommended, 216 cords: 5/)
  })

  // Source of the figures: enumeration in more-ways.test.ts.
  test('has two samples, and how they decide', async () => {
    const { html } = await openPage('/?lot=480&limit=5')
    expect(rowOf(html, 'Two samples').slice(0, 3)).toEqual([
      expect.stringContaining('232 first, more only if they leave doubt'),
      expect.stringMatching(/^347 average \d+$/),
      '0, then 1',
    ])
    expect(rowOf(html, 'Two samples')[3]).toBe('5')
  })

  // Source: MIL-STD-105E (1989), table I, lots of 281 to 500 at level II: H; table II-A: H at 1.0 is 50/1, at 0.65 the arrow leads to J, 80/1.
  test('has the standard’s plan for a code letter', async () => {
    const plain = rowOf((await openPage('/?lot=480&limit=5&aql=1.0')).html, 'The standard’s plan')
    expect(plain[0]).toContain('code letter H (AQL 1.0, level II, normal); catches 95 of 100 lots only from 43')
    expect(plain.slice(1, 3)).toEqual([expect.stringContaining('50'), '1'])
    const arrow = rowOf((await openPage('/?lot=480&limit=5&aql=0.65')).html, 'The standard’s plan')
    expect(arrow[0]).toContain('code letter H, by the arrows J (AQL 0.65, level II, normal)')
    expect(arrow.slice(1, 3)).toEqual([expect.stringContaining('80'), '1'])
  })

  // By hand: 216 cords at 20 an hour are 10.8 h, at 1.25 each 270.00; 1.25 / 50 is 2.5 %, of 480 cords 12.
  test('says bench time, money, and the least that too many can sensibly be, without filling it in', async () => {
    const { html, text } = await openPage('/?lot=480&limit=5&rate=20&test=1.25&escape=50')
    expect(text).toContain('10.8 h 20 cords an hour; EUR 270.00 in tests')
    expect(text).toContain('worth its cost where more than 2.5 % of the cords are nonconforming')
    expect(text).toContain('Of 480 cords, fewer than 12 should not be called too many on cost alone.')
    expect(typedIn(html, 'limit')).toBe('5')
    const never = await openPage('/?lot=480&limit=5&test=60&escape=50')
    expect(never.text).toContain('A test costs as much as such a cord or more: on cost alone no test pays.')
  })

  test('says where the standard’s plan comes from a recalled table', async () => {
    const { html } = await openPage('/?lot=480&limit=5&aql=1.0&severity=reduced')
    expect(rowOf(html, 'The standard’s plan')[0]).toContain(
      'from a recalled table: check it against your copy of the standard',
    )
  })

  // 215 of 480 let 5.04 of 100 lots with 5 through, exactly C(265, 5) / C(480, 5): above the 5 wished.
  test('says no chance onto a wish that it does not keep, in table, words and curves', async () => {
    const { html, text } = await openPage('/?lot=480&limit=5&percent=215%2F0')
    expect(rowOf(html, 'Your 215/0')[3]).toBe('5.1')
    expect(text).toContain('Your 215/0 lets 51 of 1,000 through')
    expect(rowOf(html, '5 nonconforming cords')).toContain('5.1')
    expect(html).toContain('Your 215/0: accepts 5.1 of 100')
  })

  test('says both roundings of a share in words', async () => {
    const { text } = await openPage('/?lot=600&limit=2.1%25&good=0.4%25')
    expect(text).toContain('2.1% of 600 cords, rounded up to whole cords, is 13.')
    expect(text).toContain('0.4% of them, rounded down to whole cords, is 2: a good lot holds no more.')
  })

  test('tells every cord where nothing smaller does', async () => {
    expect((await openPage('/?lot=10&limit=1')).text).toContain(
      'Test every one of the 10 cords: keep those that conform',
    )
    expect((await openPage('/?lot=1&limit=1')).text).toContain('Test the one cord and keep it if it conforms.')
  })

  test('draws the curves with words and a table beside them, and no style that the policy forbids', async () => {
    const { html } = await openPage('/?lot=480&limit=5')
    expect(html).toMatch(/<svg[^>]*role="img"[^>]*aria-labelledby="curves-title"/)
    expect(html).toContain('accepts 59 of 100 lots with 5 nonconforming cords.')
    expect(rowOf(html, '5 nonconforming cords').slice(1)).toEqual(['5', '59'])
    expect(rowOf(html, '0 nonconforming cords').slice(1)).toEqual(['100', '100'])
    expect(html).not.toMatch(/\sstyle=/)
  })

  test.each([
    ['lot', 'lot=0&limit=5'],
    ['lot', 'lot=1000000000&limit=5'],
    ['lot', 'lot=NaN&limit=5'],
    ['limit', 'lot=480&limit=500'],
    ['limit', 'lot=480'],
    ['confidence', 'lot=480&limit=5&confidence=100'],
    ['good', 'lot=480&limit=5&good=5'],
    ['goodrisk', 'lot=480&limit=5&goodrisk=never'],
    ['percent', 'lot=480&limit=5&percent=110'],
    ['percent', 'lot=480&limit=5&percent=500%2F1'],
    ['aql', 'lot=480&limit=5&aql=2'],
    ['level', 'lot=480&limit=5&aql=1.0&level=IV'],
    ['rate', 'lot=480&limit=5&rate=0'],
    ['test', 'lot=480&limit=5&test=x'],
    ['escape', 'lot=480&limit=5&escape=0'],
    ['own', 'lot=480&limit=5&own=500%2F1'],
    ['own', `lot=480&limit=5&own=${'9'.repeat(200)}`],
  ])('shows the form again and names %s for ?%s', async (field, query) => {
    const { status, html } = await openPage(`/?${query}`)
    expect(status).toBe(422)
    expect(problemOf(html, field)).not.toBe('')
    expect(html).toMatch(new RegExp(`name="${field}"[^>]*aria-invalid="true"`))
    for (const [name, typed] of new URLSearchParams(query)) expect(typedIn(html, name)).toBe(typed)
    expect(html).not.toContain('class="answer"')
  })

  // A dot between thousands is what half of Europe writes: common practice, no source.
  test.each(['12.000', '12,000'])('refuses a lot of %s and says that the mark in it is the matter', async (lot) => {
    const { text } = await openPage(`/?lot=${lot}&limit=5`)
    expect(text).toContain('Type digits only: 12000, not 12.000 or 12,000.')
  })

  test('shows typed marks as text, never as a page of its own', async () => {
    const { html } = await openPage('/?lot=%3Cscript%3Ealert(1)%3C%2Fscript%3E&limit=5')
    expect(html).not.toContain('<script>alert')
    expect(typedIn(html, 'lot')).toBe('&lt;script&gt;alert(1)&lt;/script&gt;')
  })
})
