// The form of a published sampling table: rows as printed, where they are from, and how the project came to know them.

/** Sample-size code letters; there is no I and no O, and S stands in the tightened tables alone. */
export const codeLetters = [
  'A',
  'B',
  'C',
  'D',
  'E',
  'F',
  'G',
  'H',
  'J',
  'K',
  'L',
  'M',
  'N',
  'P',
  'Q',
  'R',
  'S',
] as const
export type CodeLetter = (typeof codeLetters)[number]

/**
 * Acceptance quality limits, percent nonconforming, as the tables print them. Above 10 the standard counts
 * nonconformities per 100 units; a cord conforms or not, so those columns are left out.
 */
export const acceptanceQualityLimits = [
  ...(['0.010', '0.015', '0.025', '0.040', '0.065', '0.10', '0.15', '0.25'] as const),
  ...(['0.40', '0.65', '1.0', '1.5', '2.5', '4.0', '6.5', '10'] as const),
] as const
export type AcceptanceQualityLimit = (typeof acceptanceQualityLimits)[number]

/**
 * How a published value became known: read on a page of the standard or of a text that quotes it; derived by the table's
 * own rule from rows that were read; or recalled from memory, to be checked against the reader's own copy of the standard.
 */
export type Standing = 'read' | 'derived' | 'recalled'

/** Numbers of one stage, cumulative over the samples. */
export type Numbers = { readonly acceptanceNumber: number; readonly rejectionNumber: number }

/** A cell: look below or above in the same column, use the single plan of this letter, or one pair of numbers a stage. */
export type Cell = 'below' | 'above' | 'single' | readonly Numbers[]

/** A row: units in each sample, and a cell for every acceptance quality limit. */
export type Row = { readonly sampleSize: number; readonly cells: readonly Cell[] }

/** A block of positions, both ends of both directions included. */
type Block = {
  readonly letters: readonly [CodeLetter, CodeLetter]
  readonly limits: readonly [AcceptanceQualityLimit, AcceptanceQualityLimit]
}

export type Table = {
  readonly title: string
  readonly source: string
  /** Blocks whose positions were read. */
  readonly read: readonly Block[]
  /** Standing of every other position. */
  readonly otherwise: Standing
  readonly rows: ReadonlyMap<CodeLetter, Row>
}

/** How the position of a table became known. */
export function standingOf({ read, otherwise }: Table, letter: CodeLetter, limit: AcceptanceQualityLimit): Standing {
  const within = ({ letters, limits }: Block) =>
    lies(codeLetters.indexOf(letter), codeLetters.indexOf(letters[0]), codeLetters.indexOf(letters[1])) &&
    lies(columnOf(limit), columnOf(limits[0]), columnOf(limits[1]))
  return read.some(within) ? 'read' : otherwise
}

/** The column of an acceptance quality limit, from 0. */
export function columnOf(limit: AcceptanceQualityLimit): number {
  return acceptanceQualityLimits.indexOf(limit)
}

/**
 * Reads a printed table: a heading with the limits, then a line for each letter with its sample size and its cells.
 * `↓` and `↑` are the standard's arrows, `=` its reference to the single plan, `0/2;1/2` numbers after each sample.
 *
 * @throws RangeError that names the line which does not have this form
 */
export function rowsOf(printed: string): ReadonlyMap<CodeLetter, Row> {
  const [heading = '', ...lines] = printed.trim().split('\n')
  if (words(heading).join() !== ['n', ...acceptanceQualityLimits].join())
    throw new RangeError(`printed must be headed by the acceptance quality limits, not by ${heading}`)
  return new Map(lines.map(rowOf))
}

function rowOf(line: string): [CodeLetter, Row] {
  const [name, size, ...cells] = words(line)
  const letter = codeLetters.find((each) => each === name)
  const sampleSize = Number(size)
  if (!letter || !(sampleSize > 0) || cells.length !== acceptanceQualityLimits.length)
    throw new RangeError(`printed must hold a letter, a sample size and a cell for every limit, not ${line}`)
  return [letter, { sampleSize, cells: cells.map(cellOf) }]
}

function cellOf(word: string): Cell {
  switch (word) {
    case '↓':
      return 'below'
    case '↑':
      return 'above'
    case '=':
      return 'single'
    default:
      return word.split(';').map(numbersOf)
  }
}

function numbersOf(pair: string): Numbers {
  const [acceptanceNumber, rejectionNumber] = pair.split('/').map(Number)
  if (acceptanceNumber === undefined || rejectionNumber === undefined || !(rejectionNumber > acceptanceNumber))
    throw new RangeError(`printed must hold an acceptance and a higher rejection number, not ${pair}`)
  return { acceptanceNumber, rejectionNumber }
}

function words(line: string): string[] {
  return line.trim().split(/\s+/)
}

function lies(value: number, from: number, to: number): boolean {
  return from <= value && value <= to
}
