// Reads the evidence of a decision as its signature froze it: the head at once, the rows in slices, and whether they are still the same.
import { and, eq, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { decisions } from '../../../db/schema/lots.ts'
import { Refusal } from '../../kit/refusal.ts'
import { digestOf, rowsAtOnce } from './digest.ts'
import { type Evidence, type EvidenceRow, evidenceIn, rowsIn } from './format.ts'
import { type AsOf, sliceOf } from './lines.ts'

export type After = 'sample' | 'screening'

/** A row with the name of who recorded it. */
export type NamedRow = Omit<EvidenceRow, 'recordedBy'> & { recordedBy: string }

/** Positions of the nonconforming cords are left out: they may be some megabytes, and the rows have them. */
export type FrozenEvidence = Omit<Evidence, 'nonconforming'> & { asOf: AsOf }

/** What the decision rested on. Throws Refusal where there is no such decision, and for a format of a later version. */
export async function frozenEvidence(db: Db, lotId: number, after: After): Promise<FrozenEvidence> {
  const [decision] = await db
    .select({ evidence: sql<unknown>`${decisions.evidence} || '{"nonconforming": ""}'` })
    .from(decisions)
    .where(and(eq(decisions.lotId, lotId), eq(decisions.after, after)))
  if (!decision) throw new Refusal('missing', 'decision/missing', { lot: lotId })
  const evidence = evidenceIn(decision.evidence)
  if (!evidence) throw new Refusal('conflict', 'decision/later-evidence', { lot: lotId })
  const { nonconforming, ...head } = evidence
  const { plan, draw, rows } = head
  const lastPick = after === 'sample' ? plan.sampleSize + draw.standIns : undefined
  return { ...head, asOf: { lotId, lotVersion: rows.lotVersion, lastPick } }
}

/** Rows after a position, so many at most. */
export async function evidenceRows(
  db: Db,
  { asOf, rows, people }: FrozenEvidence,
  leaf: { after: number; atMost: number },
): Promise<NamedRow[]> {
  const slice = await sliceOf(db, asOf, rows.columns, leaf)
  const names = new Map(people.map(({ id, name }) => [id, name]))
  return rowsIn(slice?.lines ?? '', rows.columns).map((row) => ({
    ...row,
    recordedBy: names.get(row.recordedBy) ?? `person ${row.recordedBy}`,
  }))
}

/** Whether the rows still give the digest that was signed. A lot of a million takes some seconds. */
export async function rowsAreAsSigned(db: Db, { asOf, rows }: FrozenEvidence): Promise<boolean> {
  const { count, sha256 } = await digestOf(db, asOf, rows.columns)
  return count === rows.count && sha256 === rows.sha256
}

/** So few rows that a page can check them each time it is shown: one slice. */
export function checkedAtOnce({ rows }: FrozenEvidence): boolean {
  return rows.count <= rowsAtOnce
}
