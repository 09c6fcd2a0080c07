// The rows that are in the way of recording a file: the first few named, all of them counted.
import type { Cause } from '../../../kit/refusal.ts'

/** line: of the file, from 1, the heading included; 0 for the file as a whole. causes: one at least. */
export type BadRow = { line: number; causes: readonly Cause[] }

export type BadRows = {
  /** the first of them, in the order of the file */
  named: BadRow[]
  inAll: number
  /** why the file was not read any further; counted too */
  stopped: BadRow | undefined
}

export const mostNamed = 200

export function noBadRows(): BadRows {
  return { named: [], inAll: 0, stopped: undefined }
}

/** Counts a row, and keeps its line and causes while there are few. Rows come in the order of the file. */
export function addBadRow(bad: BadRows, line: number, ...causes: Cause[]): void {
  bad.inAll += 1
  if (bad.named.length < mostNamed) bad.named.push({ line, causes })
}

/** Both together, where no row is in both. */
export function joined(one: BadRows, other: BadRows): BadRows {
  const named = [...one.named, ...other.named].sort((a, b) => a.line - b.line).slice(0, mostNamed)
  return { named, inAll: one.inAll + other.inAll, stopped: one.stopped ?? other.stopped }
}
