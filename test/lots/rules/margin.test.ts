// The bench's two ways to say on which side of the limit a margin lies.
import { describe, expect, test } from 'vitest'
import { marginFrom } from '../../../app/lots/rules/margin.ts'
import { sentenceOf } from '../../../views/words/refusals.ts'

// Expected values follow from the words of the form themselves; that −0.04 must keep its digits is common practice, no source.
describe('a margin typed at the bench', () => {
  test.each([
    { side: 'above' as const, typed: '1.7', margin: '1.7' },
    { side: 'above' as const, typed: ' 2,40 ', margin: '2.40' },
    { side: 'above' as const, typed: '+0,3', margin: '0.3' },
    { side: 'above' as const, typed: '0', margin: '0' },
    { side: 'short' as const, typed: '0.04', margin: '-0.04' },
    { side: 'short' as const, typed: '−0,04', margin: '-0.04' },
    { side: 'short' as const, typed: '-12', margin: '-12' },
    { side: undefined, typed: '-0.04', margin: '-0.04' },
    { side: undefined, typed: '–3', margin: '-3' },
    { side: undefined, typed: '+3.125', margin: '3.125' },
  ])('$typed with the choice $side is $margin', ({ side, typed, margin }) => {
    expect(marginFrom({ side, typed })).toEqual({ margin })
  })

  test('nothing chosen and nothing typed is no reading', () => {
    expect(marginFrom({ side: undefined, typed: '  ' })).toEqual({ nothing: true })
  })

  test.each([
    { side: undefined, typed: '1.7', says: 'Choose above' },
    { side: 'above' as const, typed: '', says: 'how many dB' },
    { side: 'above' as const, typed: '-1.7', says: 'The sign says one thing' },
    { side: 'short' as const, typed: '+1.7', says: 'The sign says one thing' },
    { side: 'short' as const, typed: '0.0', says: 'more than 0 dB' },
    { side: undefined, typed: '-0', says: 'more than 0 dB' },
    { side: 'above' as const, typed: 'NaN', says: 'Type a number' },
    { side: 'above' as const, typed: '1e3', says: 'Type a number' },
    { side: 'above' as const, typed: '--1', says: 'Type a number' },
  ])('$typed with the choice $side is asked about, not guessed', ({ side, typed, says }) => {
    const entry = marginFrom({ side, typed })
    expect('problem' in entry && sentenceOf(entry.problem)).toContain(says)
  })
})
