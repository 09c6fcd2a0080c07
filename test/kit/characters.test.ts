// Which characters are unwanted, from the tables of the Unicode Standard.
import { expect, test } from 'vitest'
import { unwantedIn } from '../../app/kit/characters.ts'

// Code points and their properties: Unicode Character Database, PropList.txt and UnicodeData.txt.
test.each([
  ['a zero', 'T\u0000X', 'zero'],
  ['escape', 'T\u001bX', 'control'],
  ['a line end', 'T\nX', 'control'],
  ['a line separator', 'T\u2028X', 'control'],
  ['a right-to-left override', 'Mara\u202eX', 'direction'],
  ['a left-to-right mark', 'Mara\u200e', 'direction'],
  ['a zero-width space', 'Mara\u200b', 'invisible'],
  ['a byte order mark', '\ufeffMara', 'invisible'],
  ['a soft hyphen', 'Ma\u00adra', 'invisible'],
  ['half of a pair', 'Mara\ud800', 'broken'],
  ['a private character', 'Mara\ue000', 'broken'],
  ['an accent, a dash and a quotation mark', 'Zoë O’Brien–Čapek', undefined],
  ['another script', 'Мария', undefined],
])('%s', (_name, text, kind) => {
  expect(unwantedIn(text, { lines: false })).toBe(kind)
})

test('a longer text may hold line ends and tabs', () => {
  expect(unwantedIn('first\r\n\tsecond', { lines: true })).toBeUndefined()
  expect(unwantedIn('first\r\n\u0007', { lines: true })).toBe('control')
})
