// Collects the rows of a results file while it is read: judged and packed those that can be read, named those that cannot.
import { because, type Cause } from '../../../kit/refusal.ts'
import type { ConformityTerms } from '../conformity.ts'
import type { Entry } from '../entry.ts'
import { type AssessedEntry, assessedBy } from '../reading.ts'
import { addBadRow, type BadRows, noBadRows } from './bad-rows.ts'
import { type FileRow, readRow } from './row.ts'

/** What the lot allows: a row for each of its cords at most, judged by its plan. */
export type FileTerms = { size: number; terms: ConformityTerms }

/** Rows for one statement: JSON that `rowsOf` reads, and as arrays of PostgreSQL all their positions and those that count against the lot. */
export type FilePart = { rows: string; positions: string; nonconforming: string }

export type ReadRows = {
  /** rows that can be read */
  count: number
  /** those rows, so many together as one statement takes */
  parts: FilePart[]
  /** line of the row of each position; 0 where there is none */
  lines: Int32Array
  bad: BadRows
}

export type ResultsSheet = {
  take(cells: string[], columns: string[], line: number): void
  /** nothing is taken any more, and the file is refused for this cause too */
  stop(line: number, cause: Cause): void
  stopped(): boolean
  close(): ReadRows
}

export const fileRowsAtOnce = 5000

/** A spreadsheet may write empty rows down to the last one that was ever touched. */
const mostEmpty = 100_000

export function openSheet({ size, terms }: FileTerms): ResultsSheet {
  const bad = noBadRows()
  const lines = new Int32Array(size + 1)
  const rows = packing(terms)
  let empty = 0
  const stop = (line: number, cause: Cause) => {
    if (bad.stopped) return
    bad.stopped = { line, causes: [cause] }
    bad.inAll += 1
  }
  return {
    stop,
    stopped: () => bad.stopped !== undefined,
    take(cells, columns, line) {
      if (bad.stopped) return
      if (cells.every((cell) => cell.trim() === '')) {
        empty += 1
        if (empty > mostEmpty) stop(line, because('file/empty-rows', { most: mostEmpty }))
        return
      }
      if (rows.count() + bad.inAll === size) return stop(line, because('file/too-many-rows', { size }))
      const row = rowIn(cells, columns)
      if (Array.isArray(row)) return addBadRow(bad, line, ...row)
      const problem = placeProblem(row.position, lines)
      if (problem) return addBadRow(bad, line, problem)
      lines[row.position] = line
      rows.add(row)
    },
    close() {
      if (rows.count() + bad.inAll === 0) stop(0, because('file/no-rows', {}))
      return { count: rows.count(), parts: rows.close(), lines, bad }
    },
  }
}

/** Rows as text: as objects they would take ten times the room of the file. */
function packing(terms: ConformityTerms) {
  const parts: FilePart[] = []
  let open = emptyPart()
  let count = 0
  const close = () => {
    if (open.rows.length > 0)
      parts.push({
        rows: `[${open.rows.join(',')}]`,
        positions: `{${open.positions.join(',')}}`,
        nonconforming: `{${open.nonconforming.join(',')}}`,
      })
    open = emptyPart()
    return parts
  }
  return {
    count: () => count,
    add({ position, entry }: FileRow) {
      const { state, nonconforming } = assessedBy(entry, terms)
      count += 1
      open.rows.push(packed(position, entry, { state, nonconforming }))
      open.positions.push(position)
      if (nonconforming) open.nonconforming.push(position)
      if (open.rows.length === fileRowsAtOnce) close()
    },
    close,
  }
}

function emptyPart(): { rows: string[]; positions: number[]; nonconforming: number[] } {
  return { rows: [], positions: [], nonconforming: [] }
}

function rowIn(cells: string[], columns: string[]): FileRow | Cause[] {
  if (cells.length === columns.length) return readRow(cells, columns)
  return [because('row/columns', { columns: cells.length, heading: columns.length })]
}

function placeProblem(position: number, lines: Int32Array): Cause | undefined {
  const before = lines[position]
  if (before === undefined) return because('cord/not-drawn', { position })
  return before > 0 ? because('row/position-twice', { position, line: before }) : undefined
}

/** In the order in which `rowsOf` names them. */
function packed(position: number, entry: Entry, { state, nonconforming }: Omit<AssessedEntry, 'findings'>): string {
  if (entry.kind !== 'tested') throw new Error('a results file holds tested cords')
  const { crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool, testerSerial } = entry
  const marks = [carton, spool, testerSerial]
  return JSON.stringify([position, crosstalkMargin, returnLossMargin, wireMap, visual, state, nonconforming, ...marks])
}
