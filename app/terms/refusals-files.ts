// What stands against a row of a results file, or against the file as a whole.
import type { LookedAt, Parameter } from './cord.ts'
import type { Unwanted } from './text.ts'

type None = Record<never, never>

/** cell: as a sentence may hold it; empty where nothing stands in it. */
export type FileRefusals = {
  'row/position': None
  'row/margin': { parameter: Parameter; cell: string }
  'row/inspection': { inspection: LookedAt; cell: string }
  'row/unwanted': { column: string; unwanted: Unwanted }
  'row/unreadable': { column: string }
  'row/columns': { columns: number; heading: number }
  'row/position-twice': { position: number; line: number }
  'row/recorded-already': { position: number }
  'heading/missing': { columns: readonly string[] }
  'heading/unknown': { columns: readonly string[]; more: number }
  'heading/twice': { column: string }
  'file/no-rows': None
  'file/too-many-rows': { size: number }
  'file/empty-rows': { most: number }
  'file/long-line': { most: number }
  'file/open-quotation': None
}
