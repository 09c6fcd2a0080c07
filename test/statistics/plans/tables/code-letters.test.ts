// Sample-size code letters at the edges of the bands.
import { describe, expect, test } from 'vitest'
import { codeLetterOf } from '../../../../app/statistics/plans/standard.ts'
import { inspectionLevels } from '../../../../app/statistics/plans/tables/code-letters.ts'

describe('code letters', () => {
  // MIL-STD-105E, Table I (read): the four edges that are most often misread, and the ends.
  test.each([
    { lotSize: 2, letters: 'AAAAAAB' },
    { lotSize: 280, letters: 'BCDEEGH' },
    { lotSize: 281, letters: 'BCDEFHJ' },
    { lotSize: 500, letters: 'BCDEFHJ' },
    { lotSize: 501, letters: 'CCEFGJK' },
    { lotSize: 1200, letters: 'CCEFGJK' },
    { lotSize: 1201, letters: 'CDEGHKL' },
    { lotSize: 3200, letters: 'CDEGHKL' },
    { lotSize: 3201, letters: 'CDFGJLM' },
    { lotSize: 10_000_000, letters: 'DEHKNQR' },
  ])('of a lot of $lotSize', ({ lotSize, letters }) => {
    expect(inspectionLevels.map((level) => codeLetterOf({ lotSize, level })).join('')).toBe(letters)
  })

  test('a lot of one has none', () => {
    expect(() => codeLetterOf({ lotSize: 1, level: 'II' })).toThrow(
      'lotSize must be a whole number of at least 2, not 1',
    )
  })
})
