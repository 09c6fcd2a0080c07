// The form of a backup: lines of text, gzip-compressed. A head, then each table between two marks, then the whole's checksum.
import { z } from 'zod'

/** What a reader is told of the last line of each part: how many rows it had, and the SHA-256 of their lines. */
export type Counted = { rows: number; sha256: string }

const digest = z.string().regex(/^[0-9a-f]{64}$/)

/** The first line. `steps` are the hashes of the migrations that the database had, oldest first. */
export const head = z.object({
  format: z.literal('cordsift-backup-1'),
  made: z.iso.datetime(),
  version: z.string(),
  postgresql: z.string(),
  steps: z.array(digest).min(1),
})
export type Head = z.infer<typeof head>

/** Every line that is no row begins with a number sign; a row is JSON and begins with a brace. */
export const marks = {
  table: z.object({ table: z.string() }),
  end: z.object({ end: z.string(), rows: z.number().int().min(0), sha256: digest }),
  /** where the numbering of a table's rows goes on */
  counter: z.object({ counter: z.string(), column: z.string(), last: z.number().int(), used: z.boolean() }),
  whole: z.object({ whole: digest }),
}

const mark = z.union([marks.table, marks.end, marks.counter, marks.whole])
export type Mark = z.infer<typeof mark>

export function lineOf(said: Mark | Head): string {
  return `#${JSON.stringify(said)}\n`
}

export function markIn(line: string): Mark {
  const read = mark.safeParse(jsonIn(line))
  if (!read.success) throw new UnreadableBackup('a line is neither a row nor a mark')
  return read.data
}

export function headIn(line: string): Head {
  const read = head.safeParse(jsonIn(line))
  if (!read.success) throw new UnreadableBackup('it does not begin as a Cordsift backup does')
  return read.data
}

/** The file is cut off, damaged, or no backup. Its message completes "This backup cannot be read: ". */
export class UnreadableBackup extends Error {
  constructor(why: string, cause?: unknown) {
    super(`This backup cannot be read: ${why}`, { cause })
    this.name = 'UnreadableBackup'
  }
}

function jsonIn(line: string): unknown {
  if (!line.startsWith('#')) return undefined
  try {
    return JSON.parse(line.slice(1))
  } catch {
    return undefined
  }
}
