// The published tables against their own rule, which was recalled apart from them.
import { describe, expect, test } from 'vitest'
import { doubleNormal } from '../../../../app/statistics/plans/tables/double-normal.ts'
import { doubleTightened } from '../../../../app/statistics/plans/tables/double-tightened.ts'
import { singleNormal } from '../../../../app/statistics/plans/tables/single-normal.ts'
import { singleReduced } from '../../../../app/statistics/plans/tables/single-reduced.ts'
import { singleTightened } from '../../../../app/statistics/plans/tables/single-tightened.ts'
import {
  acceptanceQualityLimits,
  type Cell,
  codeLetters,
  rowsOf,
} from '../../../../app/statistics/plans/tables/table.ts'

/** Ac along a diagonal of the table, by letter index + column; the rule is from memory and agrees with every position read. */
const diagonals = [
  { table: singleNormal, first: 14, words: '0/1 ↑ ↓ 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22' },
  { table: singleTightened, first: 15, words: '0/1 ↓ ↓ 1/2 2/3 3/4 5/6 8/9 12/13 18/19' },
  { table: singleReduced, first: 14, words: '0/1 ↑ ↓ 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13' },
  {
    table: doubleNormal,
    first: 14,
    words: '= ↑ ↓ 0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7 3/7;8/9 5/9;12/13 7/11;18/19 11/16;26/27',
  },
  { table: doubleTightened, first: 15, words: '= ↓ ↓ 0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7 3/7;11/12 6/10;15/16 9/14;23/24' },
]

/** Cells that leave the diagonal at the edges of the tables: nothing stands above A, and no row of every table below R. */
const exceptions = new Set(['A 10', 'R 0.015'])

describe('the diagonal rule of the tables', () => {
  test.each(diagonals)('$table.title', ({ table, first, words }) => {
    const steps = words.split(' ')
    let compared = 0
    for (const [letter, { cells }] of table.rows)
      for (const [column, cell] of cells.entries()) {
        if (letter === 'S' || exceptions.has(`${letter} ${acceptanceQualityLimits[column]}`)) continue
        const step = codeLetters.indexOf(letter) + column - first
        expect(wordOf(cell), `${letter} ${acceptanceQualityLimits[column]}`).toBe(step < 0 ? '↓' : (steps[step] ?? '↑'))
        compared += 1
      }
    expect(compared).toBeGreaterThan(240)
  })

  test('a table with a missing cell or an unknown letter is refused', () => {
    const heading = `n ${acceptanceQualityLimits.join(' ')}`
    expect(() => rowsOf(`${heading}\nA 2 ↓ ↓`)).toThrow('a cell for every limit')
    expect(() => rowsOf(`${heading}\nI 2 ${'↓ '.repeat(16)}`)).toThrow('a letter')
    expect(() => rowsOf(`n 1 2 3\nA 2 ${'↓ '.repeat(16)}`)).toThrow('headed by the acceptance quality limits')
  })
})

function wordOf(cell: Cell): string {
  if (cell === 'below') return '↓'
  if (cell === 'above') return '↑'
  if (cell === 'single') return '='
  return cell.map(({ acceptanceNumber, rejectionNumber }) => `${acceptanceNumber}/${rejectionNumber}`).join(';')
}
