// Reads a tester's results from a file of separated columns, as it arrives; docs/results-file.md describes it for those who make one.
import { createHash, type Hash } from 'node:crypto'
import { pipeline } from 'node:stream/promises'
import { CsvError, parse } from 'csv-parse'
import { because } from '../../kit/refusal.ts'
import { decoded } from './file/decoded.ts'
import { headingIn, headingProblem } from './file/heading.ts'
import { linePieces, longestLine, openTable } from './file/lines.ts'
import { type FileTerms, openSheet, type ReadRows, type ResultsSheet } from './file/sheet.ts'

/** sha256: of its bytes, in hexadecimal; of a file that was not read to its end, of what was */
export type ResultsFile = ReadRows & { sha256: string }

/**
 * Reads every row that can be read and counts every one that cannot, so that a file is mended in one go. No more of it is
 * held than the rows that can be read; reading ends where a line is no line, or where there are more rows than cords.
 */
export async function readResultsFile(bytes: AsyncIterable<Uint8Array>, lot: FileTerms): Promise<ResultsFile> {
  const hash = createHash('sha256')
  const sheet = openSheet(lot)
  const pieces = linePieces(decoded(hashed(bytes, hash)), (line) =>
    sheet.stop(line, because('file/long-line', { most: longestLine })),
  )
  const { heading, line, below } = await openTable(pieces)
  const { delimiter, columns } = headingIn(heading)
  const problem = headingProblem(columns)
  if (problem !== undefined) sheet.stop(line, problem)
  else await readTable(below, { delimiter, columns, line }, sheet)
  return { sha256: hash.digest('hex'), ...sheet.close() }
}

/** The same of a text that is at hand. */
export function readResultsText(text: string, lot: FileTerms): Promise<ResultsFile> {
  return readResultsFile(textBytes(text), lot)
}

async function* textBytes(text: string): AsyncGenerator<Uint8Array> {
  yield Buffer.from(text)
}

async function* hashed(bytes: AsyncIterable<Uint8Array>, hash: Hash): AsyncGenerator<Uint8Array> {
  for await (const chunk of bytes) {
    hash.update(chunk)
    yield chunk
  }
}

type Table = { delimiter: string; columns: string[]; line: number }

/** Hands the rows below the heading to the sheet, each with the line that it begins on. */
async function readTable(below: AsyncIterable<string>, { delimiter, columns, line }: Table, sheet: ResultsSheet) {
  let ended = { lines: 0, empty: 0 } // where the last row did
  const parser = parse({
    delimiter,
    record_delimiter: '\n',
    relax_column_count: true,
    skip_empty_lines: true,
    max_record_size: 4 * longestLine, // in bytes; no line is so long, so a quotation mark is open over many
    on_record(cells: string[], { lines, empty_lines }) {
      ended = { lines, empty: empty_lines }
      const broken = cells.join('').split('\n').length - 1
      sheet.take(fitted(cells, columns), columns, line + lines - broken)
      return null
    },
  })
  parser.resume()
  try {
    await pipeline(whileOpen(below, sheet), parser)
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const begun = ended.lines + parser.info.empty_lines - ended.empty + 1
    sheet.stop(line + begun, because('file/open-quotation', {}))
  }
}

async function* whileOpen(pieces: AsyncIterable<string>, sheet: ResultsSheet): AsyncGenerator<string> {
  for await (const piece of pieces) {
    if (sheet.stopped()) return
    yield piece
  }
}

/** Without the empty cells that a delimiter at the end of the line makes. */
function fitted(cells: string[], columns: string[]): string[] {
  return cells.slice(columns.length).every((cell) => cell.trim() === '') ? cells.slice(0, columns.length) : cells
}
