// One row of a results file: the entry that its cells make, or every reason why they make none.

import { unwantedIn } from '../../../kit/characters.ts'
import { plainDecimal } from '../../../kit/decimal.ts'
import { because, type Cause, Refusal } from '../../../kit/refusal.ts'
import type { InspectionResult, LookedAt, Parameter } from '../../../terms/cord.ts'
import type { Entry } from '../entry.ts'
import { checkedEntry } from '../reading.ts'

export type FileRow = { position: number; entry: Entry }

/** Reads the cells below these columns; returns the row, or what is wrong with it. */
export function readRow(cells: string[], columns: string[]): FileRow | Cause[] {
  const unreadable = unreadableIn(cells, columns)
  if (unreadable) return [unreadable]
  const causes: Cause[] = []
  const cell = (name: string) => cells[columns.indexOf(name)]?.trim() ?? ''
  const position = /^[1-9]\d{0,6}$/.test(cell('position')) ? Number(cell('position')) : undefined
  if (position === undefined) causes.push(because('row/position', {}))
  const crosstalkMargin = marginIn(cell('crosstalk margin'), 'crosstalk', causes)
  const returnLossMargin = marginIn(cell('return loss margin'), 'return-loss', causes)
  const wireMap = inspectionIn(cell('wire map'), 'wire-map', causes)
  const visual = inspectionIn(cell('visual'), 'visual', causes)
  if (position === undefined || !wireMap || !visual || causes.length > 0) return causes
  const marks = { carton: cell('carton'), spool: cell('spool'), testerSerial: cell('tester serial') }
  try {
    const entry = checkedEntry({ kind: 'tested', crosstalkMargin, returnLossMargin, wireMap, visual, ...marks })
    return { position, entry }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return [because(error.code, error.facts)]
  }
}

/** A cell as a sentence may hold it: not too long, and without characters that nobody sees. */
export function shown(cell: string): string {
  const short = cell.length > 40 ? `${cell.slice(0, 40)}…` : cell
  return short.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '\uFFFD')
}

/** Such characters are no more taken at the ends of a cell than within it, though they would be trimmed there. */
function unreadableIn(cells: string[], columns: string[]): Cause | undefined {
  const whole = cells.join('')
  if (unwantedIn(whole, { lines: false }) === undefined && !whole.includes('\uFFFD')) return undefined
  for (const [i, cell] of cells.entries()) {
    const column = columns[i] ?? ''
    const unwanted = unwantedIn(cell, { lines: false })
    if (unwanted) return because('row/unwanted', { column, unwanted })
    if (cell.includes('\uFFFD')) return because('row/unreadable', { column })
  }
  return undefined
}

function marginIn(cell: string, parameter: Parameter, causes: Cause[]): string | undefined {
  if (cell === '') return undefined
  const margin = plainDecimal(cell)
  if (margin === undefined) causes.push(because('row/margin', { parameter, cell: shown(cell) }))
  return margin
}

/** A blank is no inspection: it must be said. */
function inspectionIn(cell: string, inspection: LookedAt, causes: Cause[]): InspectionResult | undefined {
  switch (cell.toLowerCase().replace(/[\s_-]+/g, ' ')) {
    case 'in order':
    case 'pass':
      return 'in-order'
    case 'at fault':
    case 'fail':
      return 'at-fault'
    default:
      causes.push(because('row/inspection', { inspection, cell: shown(cell) }))
      return undefined
  }
}
