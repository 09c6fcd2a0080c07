// The first line of a results file: what separates its columns, and what they are called.
import { CsvError, parse } from 'csv-parse/sync'
import { because, type Cause } from '../../../kit/refusal.ts'
import { shown } from './row.ts'

export type Heading = { delimiter: string; columns: string[] }

const wanted = ['position', 'crosstalk margin', 'return loss margin', 'wire map', 'visual', 'tester serial']
const known = [...wanted, 'carton', 'spool']
const delimiters = [',', ';', '\t']

/** The delimiter is the one that makes the most columns that are known, or else the most columns. */
export function headingIn(line: string): Heading {
  const readings = delimiters.map((delimiter) => ({ delimiter, columns: columnsIn(line, delimiter) }))
  const knownIn = ({ columns }: Heading) => columns.filter((name) => known.includes(name)).length
  const best = (one: Heading, other: Heading) =>
    knownIn(other) > knownIn(one) || (knownIn(other) === knownIn(one) && other.columns.length > one.columns.length)
  return readings.reduce((one, other) => (best(one, other) ? other : one))
}

/** Why the columns are not those of a results file; undefined where they are. */
export function headingProblem(columns: string[]): Cause | undefined {
  const missing = wanted.filter((name) => !columns.includes(name))
  if (missing.length > 0) return because('heading/missing', { columns: missing })
  const foreign = columns.filter((name) => !known.includes(name))
  if (foreign.length > 0) {
    const few = foreign.slice(0, 5).map(shown)
    return because('heading/unknown', { columns: few, more: foreign.length - few.length })
  }
  const double = columns.find((name, i) => columns.indexOf(name) !== i)
  return double === undefined ? undefined : because('heading/twice', { column: double })
}

function columnsIn(line: string, delimiter: string): string[] {
  const columns = cellsIn(line, delimiter).map(columnName)
  while (columns.at(-1) === '') columns.pop() // a delimiter at the end of every line
  return columns
}

function cellsIn(line: string, delimiter: string): string[] {
  try {
    return parse(line, { delimiter, relax_quotes: true, to: 1 })[0] ?? []
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return [line]
  }
}

/** Capitals, hyphens and underscores do not matter, and margins may name their unit. */
function columnName(cell: string): string {
  const name = cell
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim()
  return name.replace(/ ?[([]db[)\]]$/, '')
}
