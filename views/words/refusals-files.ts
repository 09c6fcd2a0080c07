// What stands against a row of a results file, or against the file, in a sentence.
import { unwantedNames } from '../../app/kit/characters.ts'
import type { FileRefusals } from '../../app/terms/refusals-files.ts'
import { lookedAtWords, parameterWords } from './cords.ts'

export const fileRefusals: { [C in keyof FileRefusals]: (facts: FileRefusals[C]) => string } = {
  'row/position': () => 'The position is a whole number from 1',
  'row/margin': ({ parameter, cell }) =>
    `The ${parameterWords[parameter]} margin ${quoted(cell)} is no number of dB such as 1.7 or -0.04`,
  'row/inspection': ({ inspection, cell }) =>
    `The ${lookedAtWords[inspection]} is "in order" or "at fault" ("pass" and "fail" are understood), not ${quoted(cell)}`,
  'row/unwanted': ({ column, unwanted }) => `The ${column} holds ${unwantedNames[unwanted]}`,
  'row/unreadable': ({ column }) =>
    `The ${column} holds a character that cannot be read: save the file as UTF-8, or type it anew`,
  'row/columns': ({ columns, heading }) => `The row has ${columns} columns, the heading ${heading}`,
  'row/position-twice': ({ position, line }) => `Cord ${position} stands in line ${line} of this file too`,
  'row/recorded-already': ({ position }) => `Cord ${position} is recorded already`,
  'heading/missing': ({ columns }) => `The first line names the columns; missing: ${columns.join(', ')}`,
  'heading/unknown': ({ columns, more }) =>
    `The first line has columns that are not known: ${columns.join(', ')}${more > 0 ? ` and ${more} more` : ''}`,
  'heading/twice': ({ column }) => `The column ${column} stands twice in the first line`,
  'file/no-rows': () => 'The file has no rows',
  'file/too-many-rows': ({ size }) => `The lot has ${size} cords and the file more rows: it was read up to here`,
  'file/empty-rows': ({ most }) => `More than ${most} rows are empty: the file was read up to here`,
  'file/long-line': ({ most }) => `The line is longer than ${most} characters: the file was read up to here`,
  'file/open-quotation': () => 'A quotation mark is not closed or stands inside a value: the file was read up to here',
}

function quoted(cell: string): string {
  return cell === '' ? 'empty' : `"${cell}"`
}
