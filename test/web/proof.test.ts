// The page of a proof, which needs no account, as a browser gets it.
import { describe, expect, test } from 'vitest'
import { openPage, problemOf, typedIn } from '../support/open-pages.ts'
import { rowOf } from '../support/page-text.ts'

describe('the proof', () => {
  test('begins with an example and its answer, marked as one until the reader asks', async () => {
    const { status, html, text } = await openPage('/proof')
    expect(status).toBe(200)
    expect(typedIn(html, 'claim')).toBe('1%')
    expect(typedIn(html, 'lot')).toBe('480')
    expect(text).toContain('This is an example: change it to your sample.')
    expect(text).toContain('Up to 27 of the 432 untested cords could be nonconforming')
    expect((await openPage('/proof?lot=480&tested=48&found=0')).text).not.toContain('This is an example')
  })

  // Source of the figures: exact arithmetic and R, checked in prove.test.ts.
  test('of 48 clean cords of 480 is up to 27 of the 432 untested', async () => {
    const { status, text } = await openPage('/proof?lot=480&tested=48&found=0&confidence=95')
    expect(status).toBe(200)
    expect(text).toContain('Up to 27 of the 432 untested cords could be nonconforming (95 % confidence, exact).')
    expect(text).toContain(
      'To claim fewer than 5 you would need 216 tested with none nonconforming. Your 48 do not support it.',
    )
    expect(text).toContain('at most 6.06 %, or 61 of 1,000') // 1 − 0.05^(1/48) = 0.06050, rounded up
    expect(text).toContain('0 % and 7.4 %') // 1 − 0.025^(1/48) = 0.07397, rounded up
    expect(text).toContain('The one-sided bound and the two-sided interval differ by design')
    expect(text).toContain('drawn at random from the whole lot, not from the top carton')
  })

  test('says when the sample does show the claim, and when it refutes it', async () => {
    expect((await openPage('/proof?lot=480&tested=216&found=0&claim=5')).text).toContain(
      'You can claim fewer than 5 of the 480. It takes 216 tested with none nonconforming.',
    )
    expect((await openPage('/proof?lot=480&tested=216&found=5&claim=5')).text).toContain(
      'You cannot claim fewer than 5: your sample itself holds 5.',
    )
  })

  test('is one line once every cord is tested', async () => {
    const { html, text } = await openPage('/proof?lot=480&tested=480&found=3')
    expect(text).toContain('All 480 cords of the lot tested: 3 do not conform. There is no uncertainty left.')
    expect(html.split('class="answer"')[1]?.split('</main>')[0]).not.toMatch(/<(h2|p|dl|figure|table)\b/)
  })

  test('names its method, and has the others with their sources under a fold', async () => {
    const { html, text } = await openPage('/proof?lot=480&tested=80&found=2')
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
    const { html, text } = await openPage(`/proof?lot=360&tested=172&found=2&${plan}`)
    // Source: sums of binomial coefficients, in taken.test.ts: 11 in the lot.
    expect(text).toContain('Up to 9 of the 188 untested cords could be nonconforming (95 % confidence, exact).')
    expect(text).toContain('ordered by stage (Jennison and Turnbull 1983)')
    expect(text).not.toContain('Mid-P')
    expect(typedIn(html, 'first')).toBe('122')
    const stopped = (await openPage('/proof?lot=480&tested=50&found=1&planned=216&rejection=1')).text
    expect(stopped).toContain('(inverse sampling, Haldane 1945)')
    expect(stopped).toContain('at most 5.94 %') // 1 − 0.05^(1/49) = 0.059306, rounded up
  })

  test('speaks of a single cord as of one', async () => {
    expect((await openPage('/proof?lot=1&tested=1&found=1')).text).toContain(
      'The one cord of the lot is tested and does not conform.',
    )
    expect((await openPage('/proof?lot=480&tested=479&found=0')).text).toContain(
      'The one untested cord conforms (95 % confidence',
    )
    expect((await openPage('/proof?lot=2&tested=1&found=0')).text).toContain(
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
    const { status, html } = await openPage(`/proof?${query}`)
    expect(status).toBe(422)
    expect(problemOf(html, field)).not.toBe('')
    for (const [name, typed] of new URLSearchParams(query)) expect(typedIn(html, name)).toBe(typed)
  })
})
