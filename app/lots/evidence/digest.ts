// One pass over the rows that a decision rests on: their digest, their number, and which of them do not conform.
import { createHash } from 'node:crypto'
import type { Db, Tx } from '../../../db/client.ts'
import { type EvidenceColumn, headingOf } from './format.ts'
import { type AsOf, sliceOf } from './lines.ts'

/** So many rows are in memory at once, and no statement comes near its time limit. */
export const rowsAtOnce = 5000

export type Digest = { count: number; sha256: string; nonconforming: string; recorders: number[] }

/** Reads every row once, in slices. Under the lot's lock, or of entries that stand for good, it sees one state of them. */
export async function digestOf(db: Db | Tx, asOf: AsOf, names: readonly EvidenceColumn[]): Promise<Digest> {
  const hash = createHash('sha256').update(headingOf(names))
  const recorders = new Set<number>()
  const nonconforming = ranges()
  let [count, after] = [0, 0]
  for (;;) {
    const slice = await sliceOf(db, asOf, names, { after, atMost: rowsAtOnce })
    if (!slice) break
    hash.update(slice.lines)
    for (const position of slice.nonconforming) nonconforming.add(position)
    for (const person of slice.recorders) recorders.add(person)
    count += slice.count
    after = slice.last
    if (slice.count < rowsAtOnce) break
  }
  return { count, sha256: hash.digest('hex'), nonconforming: nonconforming.written(), recorders: [...recorders] }
}

/** Rising positions as text, neighbours joined: 3,17-19,402. */
function ranges() {
  const done: string[] = []
  let [first, last] = [0, 0]
  const close = () => {
    if (first > 0) done.push(first === last ? String(first) : `${first}-${last}`)
  }
  return {
    add(position: number) {
      if (position !== last + 1 || first === 0) {
        close()
        first = position
      }
      last = position
    },
    written() {
      close()
      return done.join(',')
    },
  }
}
