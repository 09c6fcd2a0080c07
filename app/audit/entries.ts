// What the audit's lines of cords tell: each names an entry, which is kept with the cord for good, and holds no copy of it.
import { type SQL, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { earlierResults, results } from '../../db/schema/results.ts'

type Line = { action: string; subject: string; detail: unknown }
type Entry = { lotId: number; position: number; entry: number }

/** The lines with what their entries say, in place of the reference. Lines of earlier versions hold a copy, and stay as they are. */
export async function withEntries<L extends Line>(db: Db | Tx, lines: L[]): Promise<L[]> {
  const wanted = lines.flatMap((line) => referredBy(line) ?? [])
  if (wanted.length === 0) return lines
  const standing = await db.select().from(results).where(cordsOf(results, wanted))
  const earlier = await db.select().from(earlierResults).where(cordsOf(earlierResults, wanted))
  const entries = new Map([...standing, ...earlier].map((row) => [keyOf(row), row]))
  const corrected = new Map(earlier.map((row) => [keyOf(row), row]))
  return lines.map((line) => {
    const entry = referredBy(line)
    const row = entry && entries.get(keyOf(entry))
    if (!row) return line
    const former = corrected.get(keyOf({ ...entry, entry: entry.entry - 1 }))
    const said = former ? { entry: row.entry, reason: former.correctionReason, before: former.state } : {}
    return { ...line, detail: asKept({ ...said, ...readingOf(row) }) }
  })
}

/** The entry that a line names, if it names one and holds no copy of it. */
function referredBy({ action, subject, detail }: Line): Entry | undefined {
  const cord = /^lot\/(\d+)\/cord\/(\d+)$/.exec(subject)
  if (!cord || !/^cord\.(recorded|corrected)$/.test(action)) return undefined
  if (typeof detail !== 'object' || detail === null || 'kind' in detail) return undefined
  const entry = 'entry' in detail ? Number(detail.entry) : 1 // what is recorded is a cord's first
  return { lotId: Number(cord[1]), position: Number(cord[2]), entry }
}

function cordsOf({ lotId, position }: typeof results | typeof earlierResults, entries: Entry[]): SQL {
  const array = (numbers: number[]) => sql`${`{${numbers.join(',')}}`}::int[]`
  const lots = array(entries.map((entry) => entry.lotId))
  const positions = array(entries.map((entry) => entry.position))
  return sql`(${lotId}, ${position}) in (select * from unnest(${lots}, ${positions}))`
}

function keyOf({ lotId, position, entry }: Entry): string {
  return `${lotId}/${position}/${entry}`
}

type Row = Pick<
  typeof results.$inferSelect,
  | 'kind'
  | 'note'
  | 'crosstalkMargin'
  | 'returnLossMargin'
  | 'wireMap'
  | 'visual'
  | 'carton'
  | 'spool'
  | 'testerSerial'
  | 'state'
>

function readingOf(row: Row): Record<string, unknown> {
  const { kind, note, crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool, testerSerial, state } = row
  return { kind, note, crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool, testerSerial, state }
}

/** In the order in which the database keeps the names of a detail, so that lines read alike: the shorter first. */
function asKept(said: Record<string, unknown>): Record<string, unknown> {
  const given = Object.entries(said).filter(([, value]) => value !== null)
  return Object.fromEntries(given.sort(([one], [other]) => one.length - other.length || (one < other ? -1 : 1)))
}
