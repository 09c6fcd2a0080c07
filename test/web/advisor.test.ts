// The two pages that need no account, as a browser gets them.
import { describe, expect, test } from 'vitest'
import { advisorRoutes } from '../../app/web/advisor.tsx'
import { rowOf, textOf } from '../support/page-text.ts'

async function page(path: string): Promise<{ status: number; html: string; text: string }> {
  const answer = await advisorRoutes.request(path)
  const html = await answer.text()
  return { status: answer.status, html, text: textOf(html) }
}

/** What stands in a field of the form. */
function typedIn(html: string, name: string): string | undefined {
  const input = new RegExp(`<input[^>]*\\sname="${name}"[^>]*>`).exec(html)?.[0] ?? ''
  return /\svalue="([^"]*)"/.exec(input)?.[1]
}

function problemOf(html: string, name: string): string {
  return textOf(new RegExp(`<p class="problem" id="field-${name}-problem">(.*?)</p>`, 's').exec(html)?.[1] ?? '')
}

describe('the advisor', () => {
  test('is a bare form without a question', async () => {
    const { status, html } = await page('/')
    expect(status).toBe(200)
    expect(typedIn(html, 'confidence')).toBe('95')
    expect(typedIn(html, 'percent')).toBe('10')
    expect(typedIn(html, 'lot')).toBe('')
    expect(html).not.toContain('class="answer"')
    expect(html.startsWith('<!doctype html>')).toBe(true)
  })

  // Source of the figures on this page: exact arithmetic, checked in compare.test.ts.
  test('advises 216 of 480 where 5 are too many, and says what a tenth would do', async () => {
    const { status, html, text } = await page('/?lot=480&limit=5&confidence=95')
    expect(status).toBe(200)
    expect(text).toContain('Test 216 of the 480 cords and accept the lot only if all of them conform.')
    expect(text).toContain('lets 59 of 100 such lots through')
    expect(text).toContain('drawn at random from the whole lot (a top carton says nothing of the rest)')
    expect(rowOf(html, 'None allowed').slice(1)).toEqual([
      'up to 216 78 on average in such a lot',
      '0',
      '5',
      '45',
      '0.2',
    ])
    expect(rowOf(html, '10 %, none allowed').slice(1)).toEqual([
      'up to 48 38 on average in such a lot',
      '0',
      '59',
      '10',
      '2.9',
    ])
    expect(rowOf(html, '10 %, one allowed').slice(2)).toEqual(['1', '92', '0', '4.3'])
    expect(rowOf(html, 'Every cord').slice(1)).toEqual(['480', '–', '0', '0', '0'])
    expect(rowOf(html, 'No test').slice(1)).toEqual(['0', '–', '100', '0', '5'])
  })

  test('advises the plan for both risks once a good lot is named: 315 with acceptance number 1', async () => {
    const { html, text } = await page('/?lot=480&limit=5&confidence=95&good=1&goodrisk=5')
    expect(text).toContain('Test 315 of the 480 cords and accept the lot only if at most 1 does not conform.')
    expect(rowOf(html, 'Both risks kept')[0]).toContain('advised')
    expect(rowOf(html, 'None allowed')[0]).not.toContain('advised')
  })

  test('says what a contract’s plan really protects against', async () => {
    const { html, text } = await page('/?lot=480&limit=1%25&own=50%2F1')
    expect(text).toContain('1% of 480 cords, rounded up to whole cords, is 5.')
    expect(text).toContain('The contract’s 50/1 lets 91 of 100 lots with 5 nonconforming cords through')
    expect(text).toContain('it catches 95 of 100 lots only from 43 nonconforming cords on')
    expect(rowOf(html, 'The contract’s 50/1')[0]).toContain('only from 43')
  })

  test('tells every cord where nothing smaller does', async () => {
    expect((await page('/?lot=10&limit=1')).text).toContain('Test every one of the 10 cords; keep those that conform')
    expect((await page('/?lot=1&limit=1')).text).toContain('Test the one cord and keep it if it conforms.')
  })

  test('draws the curves with words and a table beside them, and no style that the policy forbids', async () => {
    const { html } = await page('/?lot=480&limit=5')
    expect(html).toMatch(/<svg[^>]*role="img"[^>]*aria-labelledby="curves-title"/)
    expect(html).toContain('accepts 59 of 100 lots with 5 nonconforming cords.')
    expect(rowOf(html, '5 nonconforming cords').slice(1)).toEqual(['5', '5', '59', '92'])
    expect(rowOf(html, '0 nonconforming cords').slice(1)).toEqual(['100', '100', '100', '100'])
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
    ['own', 'lot=480&limit=5&own=500%2F1'],
    ['own', `lot=480&limit=5&own=${'9'.repeat(200)}`],
  ])('shows the form again and names %s for ?%s', async (field, query) => {
    const { status, html } = await page(`/?${query}`)
    expect(status).toBe(422)
    expect(problemOf(html, field)).not.toBe('')
    expect(html).toMatch(new RegExp(`name="${field}"[^>]*aria-invalid="true"`))
    for (const [name, typed] of new URLSearchParams(query)) expect(typedIn(html, name)).toBe(typed)
    expect(html).not.toContain('class="answer"')
  })

  test('shows typed marks as text, never as a page of its own', async () => {
    const { html } = await page('/?lot=%3Cscript%3Ealert(1)%3C%2Fscript%3E&limit=5')
    expect(html).not.toContain('<script>alert')
    expect(typedIn(html, 'lot')).toBe('&lt;script&gt;alert(1)&lt;/script&gt;')
  })
})

describe('the proof', () => {
  test('is a bare form without a question', async () => {
    const { status, html } = await page('/proof')
    expect(status).toBe(200)
    expect(typedIn(html, 'claim')).toBe('1%')
    expect(html).not.toContain('class="answer"')
  })

  // Source of the figures: exact arithmetic and R, checked in prove.test.ts.
  test('of 48 clean cords of 480 is up to 27 of the 432 untested', async () => {
    const { status, text } = await page('/proof?lot=480&tested=48&found=0&confidence=95')
    expect(status).toBe(200)
    expect(text).toContain('Up to 27 of the 432 untested cords could be nonconforming (95 % confidence, exact).')
    expect(text).toContain('to say fewer than 5 with 95 % confidence: 216 tested, none not conforming')
    expect(text).toContain('at most 6.06 %, or 61 of 1,000') // 1 − 0.05^(1/48) = 0.06050, rounded up
    expect(text).toContain('0 % and 7.4 %') // 1 − 0.025^(1/48) = 0.07397, rounded up
    expect(text).toContain('The one-sided bound and the two-sided interval differ by design')
    expect(text).toContain('drawn at random from the whole lot (a top carton says nothing of the rest)')
  })

  test('says when the sample does show the claim, and when it refutes it', async () => {
    expect((await page('/proof?lot=480&tested=216&found=0&claim=5')).text).toContain(
      'Your sample does say that fewer than 5 of the 480 do not conform',
    )
    expect((await page('/proof?lot=480&tested=216&found=5&claim=5')).text).toContain(
      'is out of reach: your sample itself holds 5',
    )
  })

  test('is one line once every cord is tested', async () => {
    const { html, text } = await page('/proof?lot=480&tested=480&found=3')
    expect(text).toContain('All 480 cords of the lot tested: 3 do not conform. There is no uncertainty left.')
    expect(html.split('class="answer"')[1]?.split('</main>')[0]).not.toMatch(/<(h2|p|dl|figure|table)\b/)
  })

  test('names its method, and has the others with their sources under a fold', async () => {
    const { html, text } = await page('/proof?lot=480&tested=80&found=2')
    expect(text).toContain('Method: exact one-sided bounds (hypergeometric)')
    expect(text).toContain('Method: Clopper–Pearson (1934), exact by the binomial law')
    // Source: recomputed from the definitions: .00421 to .08014, .006883 to .086644, .0052307 to .0777788; rounded outwards.
    expect(rowOf(html, 'Mid-P').slice(1, 3)).toEqual(['0.421 %', '8.02 %'])
    expect(rowOf(html, 'Wilson').slice(1, 3)).toEqual(['0.688 %', '8.67 %'])
    expect(rowOf(html, 'Jeffreys').slice(1, 3)).toEqual(['0.523 %', '7.78 %'])
    expect(rowOf(html, 'Jeffreys')[3]).toContain('Brown, Cai and DasGupta 2001')
    expect(/<details>(?!.*<form).*Mid-P.*<\/details>/s.test(html)).toBe(true)
  })

  test('respects two samples and a stop, and names what they rest on', async () => {
    const plan = 'planned=219&rejection=2&first=122&accept=0'
    const { html, text } = await page(`/proof?lot=360&tested=172&found=2&${plan}`)
    // Source: sums of binomial coefficients, in taken.test.ts: 11 in the lot.
    expect(text).toContain('Up to 9 of the 188 untested cords could be nonconforming (95 % confidence, exact).')
    expect(text).toContain('ordered by stage (Jennison and Turnbull 1983)')
    expect(text).not.toContain('Mid-P')
    expect(typedIn(html, 'first')).toBe('122')
    const stopped = (await page('/proof?lot=480&tested=50&found=1&planned=216&rejection=1')).text
    expect(stopped).toContain('(inverse sampling, Haldane 1945)')
    expect(stopped).toContain('at most 5.94 %') // 1 − 0.05^(1/49) = 0.059306, rounded up
  })

  test('speaks of a single cord as of one', async () => {
    expect((await page('/proof?lot=1&tested=1&found=1')).text).toContain(
      'The one cord of the lot is tested and does not conform.',
    )
    expect((await page('/proof?lot=480&tested=479&found=0')).text).toContain(
      'The one untested cord conforms (95 % confidence',
    )
    expect((await page('/proof?lot=2&tested=1&found=0')).text).toContain(
      'The one untested cord could be nonconforming (95 %',
    )
  })

  test.each([
    ['lot', 'lot=0&tested=0&found=0'],
    ['tested', 'lot=480&tested=481&found=0'],
    ['tested', 'lot=480&found=0'],
    ['found', 'lot=480&tested=48&found=49'],
    ['found', 'lot=480&tested=48&found=-1'],
    ['confidence', 'lot=480&tested=48&found=0&confidence=x'],
    ['claim', 'lot=480&tested=48&found=0&claim=500'],
    ['tested', 'lot=480&tested=48&found=0&planned=216&rejection=1'],
    ['first', 'lot=480&tested=48&found=0&planned=216&rejection=2&first=300&accept=0'],
  ])('shows the form again and names %s for ?%s', async (field, query) => {
    const { status, html } = await page(`/proof?${query}`)
    expect(status).toBe(422)
    expect(problemOf(html, field)).not.toBe('')
    for (const [name, typed] of new URLSearchParams(query)) expect(typedIn(html, name)).toBe(typed)
  })
})
