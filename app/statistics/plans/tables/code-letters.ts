// Sample-size code letters by lot size and inspection level.
import { type CodeLetter, codeLetters } from './table.ts'

/** Inspection levels: the special ones for small samples, then the general ones; II unless otherwise agreed. */
export const inspectionLevels = ['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III'] as const
export type InspectionLevel = (typeof inspectionLevels)[number]

/** Lots from `from` units up to the next band, with one letter a level. */
type Band = { readonly from: number; readonly letters: readonly CodeLetter[] }

export const codeLetterTable: { readonly title: string; readonly source: string; readonly bands: readonly Band[] } = {
  title: 'Sample-size code letters',
  source:
    'MIL-STD-105E (10 May 1989), Table I; all seven columns were read. ISO 2859-1:1999, Table 1, and ANSI Z1.4, ' +
    'Table I, are said to be the same (from memory)',
  bands: bandsOf(`
  from  S-1 S-2 S-3 S-4 I   II  III
     2  A   A   A   A   A   A   B
     9  A   A   A   A   A   B   C
    16  A   A   B   B   B   C   D
    26  A   B   B   C   C   D   E
    51  B   B   C   C   C   E   F
    91  B   B   C   D   D   F   G
   151  B   C   D   E   E   G   H
   281  B   C   D   E   F   H   J
   501  C   C   E   F   G   J   K
  1201  C   D   E   G   H   K   L
  3201  C   D   F   G   J   L   M
 10001  C   D   F   H   K   M   N
 35001  D   E   G   J   L   N   P
150001  D   E   G   J   M   P   Q
500001  D   E   H   K   N   Q   R
`),
}

function bandsOf(printed: string): Band[] {
  return printed
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const [from, ...names] = line.trim().split(/\s+/)
      const letters = names.flatMap((name) => codeLetters.filter((letter) => letter === name))
      if (letters.length !== inspectionLevels.length)
        throw new RangeError(`printed must hold a code letter for every level, not ${line}`)
      return { from: Number(from), letters }
    })
}
