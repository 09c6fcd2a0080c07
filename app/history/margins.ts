// The margins of a supplier's lots over time: how near the limit its cords come.
import { and, desc, eq, inArray, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { decisions, lots } from '../../db/schema/lots.ts'
import { results } from '../../db/schema/results.ts'

/** dB above the limit: the least, the margin that one cord in twenty does not reach, and the middle one. */
export type LotMarginSummary = { minimum: number; percentile5: number; median: number }

export type LotMargins = {
  lotId: number
  /** cords with the margin measured */
  cords: number
  crosstalk: LotMarginSummary | undefined
  returnLoss: LotMarginSummary | undefined
}

/** As many lots as a chart of them can show; older ones are on the pages of their lots. */
const lotsShown = 24

/** The latest decided lots, the oldest of them first. All measured cords of a lot count, those of a screening too. */
export async function marginsOf(db: Db, supplierId: number): Promise<LotMargins[]> {
  const latest = await db
    .select({ lotId: lots.id })
    .from(lots)
    .innerJoin(decisions, and(eq(decisions.lotId, lots.id), eq(decisions.after, 'sample')))
    .where(eq(lots.supplierId, supplierId))
    .orderBy(desc(decisions.decidedAt), desc(lots.id))
    .limit(lotsShown)
  if (latest.length === 0) return []
  const ids = latest.map(({ lotId }) => lotId)
  const crosstalk = quantiles('crosstalk_margin')
  const returnLoss = quantiles('return_loss_margin')
  const cords = sql<number>`count(${results.crosstalkMargin})::int`
  const rows = await db
    .select({ lotId: results.lotId, cords, crosstalk, returnLoss })
    .from(results)
    .where(inArray(results.lotId, ids))
    .groupBy(results.lotId)
  const found = new Map(rows.map((row) => [row.lotId, row]))
  return ids.toReversed().map((lotId) => {
    const row = found.get(lotId)
    return { lotId, cords: row?.cords ?? 0, crosstalk: summary(row?.crosstalk), returnLoss: summary(row?.returnLoss) }
  })
}

/** Observed margins, none between two: the k-th smallest of n with k = 1, ⌈n/20⌉ and ⌈n/2⌉. */
function quantiles(column: 'crosstalk_margin' | 'return_loss_margin') {
  return sql<
    string[] | null
  >`percentile_disc(array[0, 0.05, 0.5]::float8[]) within group (order by ${sql.identifier(column)})::text[]`
}

function summary(digits: string[] | null | undefined): LotMarginSummary | undefined {
  const [minimum, percentile5, median] = (digits ?? []).map(Number)
  if (minimum === undefined || percentile5 === undefined || median === undefined) return undefined
  return { minimum, percentile5, median }
}
