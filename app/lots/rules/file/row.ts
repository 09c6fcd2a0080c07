// One row of a results file: the entry that its cells make, or every reason why they make none.

import { unwantedIn, unwantedNames } from '../../../kit/characters.ts'
import { plainDecimal } from '../../../kit/decimal.ts'
import { Refusal } from '../../../kit/refusal.ts'
import type { InspectionResult } from '../../../terms/cord.ts'
import type { Entry } from '../entry.ts'
import { checkedEntry } from '../reading.ts'

export type FileRow = { position: number; entry: Entry }

/** Reads the cells below these columns; returns the row, or the sentence that says what is wrong with it. */
export function readRow(cells: string[], columns: string[]): FileRow | string {
  const unreadable = unreadableIn(cells, columns)
  if (unreadable !== undefined) return unreadable
  const reasons: string[] = []
  const cell = (name: string) => cells[columns.indexOf(name)]?.trim() ?? ''
  const position = /^[1-9]\d{0,6}$/.test(cell('position')) ? Number(cell('position')) : undefined
  if (position === undefined) reasons.push('The position is a whole number from 1')
  const crosstalkMargin = marginIn(cell('crosstalk margin'), 'crosstalk', reasons)
  const returnLossMargin = marginIn(cell('return loss margin'), 'return loss', reasons)
  const wireMap = inspectionIn(cell('wire map'), 'wire map', reasons)
  const visual = inspectionIn(cell('visual'), 'visual', reasons)
  if (position === undefined || !wireMap || !visual || reasons.length > 0) return reasons.join('; ')
  const marks = { carton: cell('carton'), spool: cell('spool'), testerSerial: cell('tester serial') }
  try {
    const entry = checkedEntry({ kind: 'tested', crosstalkMargin, returnLossMargin, wireMap, visual, ...marks })
    return { position, entry }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return error.message
  }
}

/** A cell as a sentence may hold it: not too long, and without characters that nobody sees. */
export function shown(cell: string): string {
  const short = cell.length > 40 ? `${cell.slice(0, 40)}…` : cell
  return short.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '\uFFFD')
}

/** Such characters are no more taken at the ends of a cell than within it, though they would be trimmed there. */
function unreadableIn(cells: string[], columns: string[]): string | undefined {
  const whole = cells.join('')
  if (unwantedIn(whole, { lines: false }) === undefined && !whole.includes('\uFFFD')) return undefined
  for (const [i, cell] of cells.entries()) {
    const unwanted = unwantedIn(cell, { lines: false })
    if (unwanted) return `The ${columns[i]} holds ${unwantedNames[unwanted]}`
    if (cell.includes('\uFFFD'))
      return `The ${columns[i]} holds a character that cannot be read: save the file as UTF-8, or type it anew`
  }
  return undefined
}

function marginIn(cell: string, what: string, reasons: string[]): string | undefined {
  if (cell === '') return undefined
  const margin = plainDecimal(cell)
  if (margin === undefined) reasons.push(`The ${what} margin ${quoted(cell)} is no number of dB such as 1.7 or -0.04`)
  return margin
}

/** A blank is no inspection: it must be said. */
function inspectionIn(cell: string, what: string, reasons: string[]): InspectionResult | undefined {
  switch (cell.toLowerCase().replace(/[\s_-]+/g, ' ')) {
    case 'in order':
    case 'pass':
      return 'in-order'
    case 'at fault':
    case 'fail':
      return 'at-fault'
    default:
      reasons.push(`The ${what} is "in order" or "at fault" ("pass" and "fail" are understood), not ${quoted(cell)}`)
      return undefined
  }
}

function quoted(cell: string): string {
  return cell === '' ? 'empty' : `"${shown(cell)}"`
}
