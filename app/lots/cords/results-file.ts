// Reads a tester's results from a file of separated columns; docs/results-file.md describes it for whoever makes one.
import { CsvError, parse } from 'csv-parse/sync'
import type { Inspection } from '../../items/judge.ts'
import { plainDecimal } from '../../kit/decimal.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Entry } from './entry.ts'
import { checkedEntry } from './judged.ts'

export type FileRow = { line: number; position: number; entry: Entry }
/** line: of the file, from 1, the heading included; 0 for the file as a whole. */
export type BadRow = { line: number; reason: string }
export type ResultsFile = { rows: FileRow[]; bad: BadRow[] }

type Cells = Record<string, string>

const wanted = ['position', 'crosstalk margin', 'return loss margin', 'wire map', 'visual', 'tester serial']
const optional = ['carton', 'spool']

/**
 * Reads every row that can be read and names every one that cannot, so that a file is mended in one go.
 * The delimiter is a semicolon, a tab or a comma, whichever the heading holds; margins are signed.
 */
export function readResultsFile(text: string): ResultsFile {
  const heading = text.replace(/^\uFEFF/, '').split(/\r?\n/, 1)[0] ?? ''
  const columns = heading.split(delimiterOf(heading)).map(columnName)
  const problem = headingProblem(columns)
  if (problem !== undefined) return { rows: [], bad: [{ line: 1, reason: problem }] }
  const file: ResultsFile = { rows: [], bad: [] }
  const firstLine = new Map<number, number>()
  for (const { cells, line } of recordsOf(text, delimiterOf(heading), file.bad)) {
    if (cells.length !== columns.length) {
      file.bad.push({ line, reason: `The row has ${cells.length} columns, the heading ${columns.length}` })
      continue
    }
    const row = readRow(Object.fromEntries(columns.map((name, i) => [name, cells[i]?.trim() ?? ''])), line, file.bad)
    const before = row && firstLine.get(row.position)
    if (before !== undefined)
      file.bad.push({ line, reason: `Cord ${row?.position} stands in line ${before} of this file too` })
    else if (row) {
      firstLine.set(row.position, line)
      file.rows.push(row)
    }
  }
  if (file.rows.length === 0 && file.bad.length === 0) file.bad.push({ line: 0, reason: 'The file has no rows' })
  return file
}

function delimiterOf(heading: string): string {
  if (heading.includes(';')) return ';'
  return heading.includes('\t') ? '\t' : ','
}

function columnName(cell: string): string {
  return cell
    .replace(/^\s*"|"\s*$/g, '')
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
}

function headingProblem(columns: string[]): string | undefined {
  const missing = wanted.filter((name) => !columns.includes(name))
  if (missing.length > 0) return `The first line names the columns; missing: ${missing.join(', ')}`
  const strange = columns.filter((name) => !wanted.includes(name) && !optional.includes(name))
  if (strange.length > 0) return `The first line has columns that are not known: ${strange.join(', ')}`
  const double = columns.find((name, i) => columns.indexOf(name) !== i)
  return double === undefined ? undefined : `The column ${double} stands twice in the first line`
}

/** The rows below the heading, each with the line it begins on. What cannot be split into rows at all is named in `bad`. */
function recordsOf(text: string, delimiter: string, bad: BadRow[]): { cells: string[]; line: number }[] {
  const rows: { cells: string[]; line: number }[] = []
  try {
    parse(text, {
      delimiter,
      bom: true,
      relax_column_count: true,
      skip_empty_lines: true,
      from: 2,
      on_record(cells: string[], { lines }) {
        const broken = cells.join('').split('\n').length - 1
        if (cells.some((cell) => cell.trim() !== '')) rows.push({ cells, line: lines - broken })
      },
    })
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const line = typeof error.lines === 'number' ? error.lines : 0
    bad.push({ line, reason: 'A quotation mark is not closed or stands inside a value: the file was read up to here' })
  }
  return rows
}

function readRow(cells: Cells, line: number, bad: BadRow[]): FileRow | undefined {
  const reasons: string[] = []
  const position = /^[1-9]\d{0,6}$/.test(cells.position ?? '') ? Number(cells.position) : undefined
  if (position === undefined) reasons.push('The position is a whole number from 1')
  const crosstalkMargin = marginIn(cells['crosstalk margin'], 'crosstalk', reasons)
  const returnLossMargin = marginIn(cells['return loss margin'], 'return loss', reasons)
  const wireMap = inspectionIn(cells['wire map'], 'wire map', reasons)
  const visual = inspectionIn(cells.visual, 'visual', reasons)
  if (position !== undefined && wireMap && visual && reasons.length === 0) {
    const marks = { carton: cells.carton, spool: cells.spool, testerSerial: cells['tester serial'] }
    try {
      const entry = checkedEntry({ kind: 'tested', crosstalkMargin, returnLossMargin, wireMap, visual, ...marks })
      return { line, position, entry }
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      reasons.push(error.message)
    }
  }
  bad.push({ line, reason: reasons.join('; ') })
  return undefined
}

function marginIn(cell: string | undefined, what: string, reasons: string[]): string | undefined {
  if (cell === undefined || cell === '') return undefined
  const margin = plainDecimal(cell)
  if (margin === undefined) reasons.push(`The ${what} margin ${quoted(cell)} is no number of dB such as 1.7 or -0.04`)
  return margin
}

/** A blank is no inspection: it must be said. */
function inspectionIn(cell: string | undefined, what: string, reasons: string[]): Inspection | undefined {
  switch ((cell ?? '').toLowerCase().replace(/[\s_-]+/g, ' ')) {
    case 'in order':
    case 'pass':
      return 'in-order'
    case 'at fault':
    case 'fail':
      return 'at-fault'
    default:
      reasons.push(
        `The ${what} is "in order" or "at fault" ("pass" and "fail" are understood), not ${quoted(cell ?? '')}`,
      )
      return undefined
  }
}

function quoted(cell: string): string {
  return cell === '' ? 'empty' : `"${cell.length > 40 ? `${cell.slice(0, 40)}…` : cell}"`
}
