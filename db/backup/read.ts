// Reads a backup line by line and proves it on the way: every table's checksum, and the whole's at the end.
import { createHash } from 'node:crypto'
import { createReadStream, existsSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { createGunzip } from 'node:zlib'
import { type Counted, type Head, headIn, markIn, UnreadableBackup } from './format.ts'

export type Part =
  | { kind: 'head'; head: Head }
  | { kind: 'rows'; table: string; rows: string[] }
  | { kind: 'table'; table: string; counted: Counted }
  | { kind: 'counter'; table: string; column: string; last: number; used: boolean }

/** Rows handed out at once: so many, or so many characters. */
const atOnce = { rows: 5000, characters: 4_000_000 }

/** Reads the whole file once and hands out nothing. Throws UnreadableBackup for one that is cut off, changed, or no backup. */
export async function proveBackup(path: string): Promise<void> {
  for await (const _ of readBackup(path));
}

/** Throws as `proveBackup` does; what came before was handed out already. */
export async function* readBackup(path: string): AsyncGenerator<Part> {
  if (!existsSync(path)) throw new UnreadableBackup(`there is no ${path}`)
  const file = createReadStream(path)
  const text = createGunzip()
  file.on('error', (error) => text.destroy(error))
  try {
    yield* partsIn(createInterface({ input: file.pipe(text), crlfDelay: Number.POSITIVE_INFINITY }))
  } catch (error) {
    throw error instanceof UnreadableBackup ? error : new UnreadableBackup('the file is damaged or cut off', error)
  } finally {
    file.destroy()
  }
}

type Open = { table: string; hash: ReturnType<typeof createHash>; rows: number; slice: string[]; characters: number }

async function* partsIn(lines: AsyncIterable<string>): AsyncGenerator<Part> {
  const read: Read = { whole: createHash('sha256'), begun: false, complete: false, open: undefined }
  for await (const line of lines) {
    if (read.complete) throw new UnreadableBackup('something stands after its end')
    if (!read.begun) {
      yield { kind: 'head', head: headIn(line) }
      read.begun = true
    } else if (line.startsWith('{')) {
      if (!read.open) throw new UnreadableBackup('a row stands outside a table')
      take(read.open, line)
      if (read.open.slice.length >= atOnce.rows || read.open.characters >= atOnce.characters) yield handOut(read.open)
    } else yield* partsOfMark(line, read)
    if (!read.complete) read.whole.update(`${line}\n`)
  }
  if (!read.complete) throw new UnreadableBackup(read.begun ? 'it is cut off' : 'it is empty')
}

type Read = { whole: Open['hash']; begun: boolean; complete: boolean; open: Open | undefined }

/** A line that is no row: a table begins or ends, a counter stands where it stood, or the whole is complete. */
function* partsOfMark(line: string, read: Read): Generator<Part> {
  const { open } = read
  const mark = markIn(line)
  if ('whole' in mark) {
    if (open || mark.whole !== read.whole.digest('hex')) throw new UnreadableBackup('its checksum does not agree')
    read.complete = true
  } else if ('table' in mark)
    read.open = { table: mark.table, hash: createHash('sha256'), rows: 0, slice: [], characters: 0 }
  else if ('end' in mark) {
    if (!open || open.table !== mark.end) throw new UnreadableBackup('a table ends that did not begin')
    if (open.slice.length > 0) yield handOut(open)
    yield { kind: 'table', table: mark.end, counted: proven(open, mark) }
    read.open = undefined
  } else yield { kind: 'counter', table: mark.counter, column: mark.column, last: mark.last, used: mark.used }
}

function take(open: Open, line: string): void {
  open.hash.update(`${line}\n`)
  open.rows += 1
  open.slice.push(line)
  open.characters += line.length
}

function handOut(open: Open): Part {
  const { table, slice } = open
  open.slice = []
  open.characters = 0
  return { kind: 'rows', table, rows: slice }
}

function proven({ table, rows, hash }: Open, said: Counted): Counted {
  if (rows !== said.rows || hash.digest('hex') !== said.sha256)
    throw new UnreadableBackup(`the checksum of ${table} does not agree`)
  return { rows, sha256: said.sha256 }
}
