// The decided lots of series as the switching rules need them: the standard's plan of each, and what its first picks showed.
import { and, asc, eq, type SQL, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { decisions, lots, plans } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { tallies } from '../../db/schema/results.ts'
import { type FrozenStandard, frozenStandardOf } from '../lots/rules/first-fetch.ts'
import type { SampleCount } from '../lots/rules/progress.ts'
import { seriesTermsOf, singlePlanOf } from '../lots/rules/standard-terms.ts'
import { severities } from '../terms/series.ts'
import { outsideSeries } from './outside.ts'

/** The first picks of a draw, so many of them, as far as they are recorded. */
export type FirstPicks = SampleCount & { sampleSize: number }

export type InspectedLotFacts = {
  lotId: number
  supplierId: number
  itemId: number
  size: number
  isolated: boolean
  resubmissionOf: number | null
  replacementOf: number | null
  /** picks that were drawn */
  drawn: number
  frozenAt: Date
  decidedAt: Date
  /** undefined where the lot's plan was frozen without it: before it was kept, or before a limit was named */
  standard: FrozenStandard | undefined
  /** of the frozen plan; or without one of every plan that the item's limit can ask for, as far as so many were drawn */
  picks: FirstPicks[]
}

/** Of one supplier, of one item, or of some series. */
export type WhichSeries = {
  supplierId?: number
  itemId?: number
  series?: readonly { supplierId: number; itemId: number }[]
}

/** Lots decided after their sample, oldest first, of items that name an acceptance quality limit. Cords are read only of lots without a frozen standard's plan. */
export async function inspectedLots(db: Db | Tx, which: WhichSeries): Promise<InspectedLotFacts[]> {
  const rows = await rowsOf(db, which)
  const known = rows.flatMap((row) => {
    const wanted = wantedOf(row)
    return wanted ? [{ ...row, ...wanted }] : []
  })
  const read = await firstPicks(
    db,
    known.flatMap(({ lot, toRead }) => toRead.map((sampleSize) => ({ lotId: lot.lotId, sampleSize }))),
  )
  return known.map(({ lot, plan, standard, picks, decidedAt }) => {
    const { lotId } = lot
    return {
      ...lot,
      size: plan.lotSize,
      drawn: plan.sampleSize,
      frozenAt: plan.frozenAt,
      decidedAt,
      standard,
      picks: [...picks, ...(read.get(lotId) ?? [])],
    }
  })
}

type Row = Awaited<ReturnType<typeof rowsOf>>[number]

/** What is known of a lot's first picks from its counts, and the numbers of picks that must be read; undefined without a limit. */
function wantedOf({ lot, plan, tally, item }: Row) {
  const terms = seriesTermsOf(item)
  if (!terms) return undefined
  const standard = frozenStandardOf(plan)
  if (standard) {
    const { sampleSize } = standard
    const count = { recorded: tally.firstFetchRecorded, found: tally.firstFetchFound }
    return { standard, picks: [{ sampleSize, ...count }], toRead: [] }
  }
  if (outsideSeries({ ...lot, size: plan.lotSize })) return { standard, picks: [], toRead: [] }
  const sizes = severities.flatMap((severity) => {
    const { sampleSize } = singlePlanOf(terms, plan.lotSize, severity)?.plan.stages[0] ?? {}
    return sampleSize !== undefined && sampleSize <= plan.sampleSize ? [sampleSize] : []
  })
  const asked = [...new Set(sizes)]
  const clean = tally.sampleRecorded === plan.sampleSize && tally.sampleNonconforming === 0
  if (!clean) return { standard, picks: [], toRead: asked }
  return { standard, picks: asked.map((sampleSize) => ({ sampleSize, recorded: sampleSize, found: 0 })), toRead: [] }
}

function rowsOf(db: Db | Tx, { supplierId, itemId, series }: WhichSeries) {
  const { lotId, sampleRecorded, sampleNonconforming, firstFetchRecorded, firstFetchFound } = tallies
  return db
    .select({
      lot: {
        lotId: lots.id,
        supplierId: lots.supplierId,
        itemId: lots.itemId,
        isolated: lots.isolated,
        resubmissionOf: lots.resubmissionOf,
        replacementOf: lots.replacementOf,
      },
      plan: plans,
      item: { acceptanceQualityLimit: items.acceptanceQualityLimit, inspectionLevel: items.inspectionLevel },
      tally: { lotId, sampleRecorded, sampleNonconforming, firstFetchRecorded, firstFetchFound },
      decidedAt: decisions.decidedAt,
    })
    .from(decisions)
    .innerJoin(lots, eq(lots.id, decisions.lotId))
    .innerJoin(items, eq(items.id, lots.itemId))
    .innerJoin(plans, eq(plans.lotId, lots.id))
    .innerJoin(tallies, eq(tallies.lotId, lots.id))
    .where(
      and(
        eq(decisions.after, 'sample'),
        supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
        itemId === undefined ? undefined : eq(lots.itemId, itemId),
        series && inSeries(series),
      ),
    )
    .orderBy(asc(lots.id))
}

function inSeries(series: readonly { supplierId: number; itemId: number }[]): SQL {
  const pairs = series.map(({ supplierId, itemId }) => sql`(${supplierId}::int, ${itemId}::int)`)
  return sql`(${lots.supplierId}, ${lots.itemId}) in (${sql.join(pairs, sql`, `)})`
}

/** The first picks of these lots, a stand-in in the place of the pick that it replaced; by lot. */
async function firstPicks(
  db: Db | Tx,
  wanted: { lotId: number; sampleSize: number }[],
): Promise<Map<number, FirstPicks[]>> {
  const byLot = new Map<number, FirstPicks[]>()
  if (wanted.length === 0) return byLot
  const lotIds = `{${wanted.map(({ lotId }) => lotId).join(',')}}`
  const sizes = `{${wanted.map(({ sampleSize }) => sampleSize).join(',')}}`
  const rows = await db.execute<FirstPicks & { lotId: number }>(sql`
    select w.lot_id as "lotId", w.sample_size as "sampleSize", c.recorded, c.found
    from unnest(${lotIds}::int[], ${sizes}::int[]) as w (lot_id, sample_size)
    cross join lateral (
      select count(*)::int as recorded, (count(*) filter (where r.nonconforming))::int as found
      from (
        select position from drawn_cords where lot_id = w.lot_id and pick <= w.sample_size
        union all
        select position from drawn_cords where lot_id = w.lot_id and stands_in_for is not null and takes_pick <= w.sample_size
      ) d join results r on r.lot_id = w.lot_id and r.position = d.position
      where r.counts
    ) c`)
  for (const { lotId, ...picks } of rows) byLot.set(lotId, [...(byLot.get(lotId) ?? []), picks])
  return byLot
}
