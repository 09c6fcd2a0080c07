// Series whose latest lot stands out, or that are inspected more strictly than normal: for the work list.
import { and, asc, eq, inArray, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items, seriesNotes, suppliers } from '../../db/schema/register.ts'
import { seriesCounts } from '../../db/schema/series-counts.ts'
import { type Run, runOf } from '../kit/task.ts'
import { openStates, wholeLotStates } from '../lots/rules/lifecycle.ts'
import { seriesTermsOf } from '../lots/rules/standard-terms.ts'
import { inspectedLots } from '../series/inspected-lots.ts'
import { piecesOf } from './counted.ts'
import { type CountedLot, countedLots } from './counted-lots.ts'
import { sampledCords } from './sampled-cords.ts'
import { piecesOfTrend } from './series/trend.ts'
import { type SeriesSignal, signalTask } from './signal-sums.ts'

/** A series without a decided lot for longer than this is no news. */
const newsDays = 60

/** The last answer for each database, with the state of the series that it was worked out from. */
const remembered = new WeakMap<Db, { from: string; signals: SeriesSignal[] }>()

/**
 * Signals of all series that had a lot decided lately, by supplier. Lots are read again only after a decision, a note, a changed
 * item or an entry of a lot under screening: what the answer rests on is told by the counts that the database keeps by series.
 */
export async function seriesSignals(db: Db, run: Run, now: Date): Promise<SeriesSignal[]> {
  const all = await seriesNow(db)
  const newsFrom = now.getTime() - newsDays * 86_400_000
  const lively = all.filter(({ latestDecidedAt }) => latestDecidedAt.getTime() > newsFrom)
  if (lively.length === 0) return []
  const from = JSON.stringify([all, lively.map(({ supplierId, itemId }) => [supplierId, itemId])])
  const before = remembered.get(db)
  if (before?.from === from) return before.signals
  const signals = await signalsOf(db, run, lively)
  remembered.set(db, { from, signals })
  return signals
}

const underScreening = wholeLotStates.filter((state) => openStates.includes(state))

type SeriesNow = Awaited<ReturnType<typeof seriesNow>>[number]

/** Every series as its counts stand, and what else may change its signal: the item, the notes, entries of lots that are screened. */
async function seriesNow(db: Db) {
  const ofSeries = sql`${lots.supplierId} = ${seriesCounts.supplierId} and ${lots.itemId} = ${seriesCounts.itemId}`
  const screened = db
    .select({ at: sql`max(${lots.movedAt})::text` })
    .from(lots)
    .where(and(ofSeries, inArray(lots.state, underScreening)))
  const notes = db
    .select({ last: sql`max(${seriesNotes.id})` })
    .from(seriesNotes)
    .where(
      sql`${seriesNotes.supplierId} = ${seriesCounts.supplierId} and ${seriesNotes.itemId} = ${seriesCounts.itemId}`,
    )
  return db
    .select({
      supplierId: seriesCounts.supplierId,
      supplier: suppliers.name,
      itemId: seriesCounts.itemId,
      itemVersion: items.version,
      lots: seriesCounts.lots,
      recorded: seriesCounts.recorded,
      found: seriesCounts.found,
      closed: seriesCounts.closed,
      latestDecidedAt: seriesCounts.latestDecidedAt,
      screened: sql<string | null>`(${screened})`,
      lastNote: sql<number | null>`(${notes})`,
    })
    .from(seriesCounts)
    .innerJoin(suppliers, eq(suppliers.id, seriesCounts.supplierId))
    .innerJoin(items, eq(items.id, seriesCounts.itemId))
    .orderBy(asc(seriesCounts.supplierId), asc(seriesCounts.itemId))
}

async function signalsOf(db: Db, run: Run, lively: SeriesNow[]): Promise<SeriesSignal[]> {
  const counted = grouped(await countedLots(db, { series: lively }))
  const inspected = grouped(await inspectedLots(db, { series: lively }))
  const kinds = new Map((await db.select().from(items)).map((item) => [item.id, item]))
  const notes = grouped(await db.select().from(seriesNotes).orderBy(asc(seriesNotes.id)))
  const series = lively.map(({ supplierId, supplier, itemId }) => {
    const item = kinds.get(itemId)
    return {
      supplier: { id: supplierId, name: supplier },
      item: { id: itemId, name: item?.name ?? '' },
      lots: decidedOf(counted.get(keyOf(supplierId, itemId))),
      inspected: inspected.get(keyOf(supplierId, itemId)) ?? [],
      notes: notes.get(keyOf(supplierId, itemId)) ?? [],
      terms: seriesTermsOf(item),
    }
  })
  const sampled = await sampledCords(db)
  const pieces = series.length * piecesOfTrend + sampled.length + piecesOf(series.flatMap(({ lots }) => lots))
  const signals = await runOf(pieces, run)(signalTask, { series, sampled })
  return signals.toSorted((one, other) => one.supplier.name.localeCompare(other.supplier.name))
}

function decidedOf(counted: CountedLot[] | undefined): CountedLot[] {
  return (counted ?? []).filter(({ decided }) => decided)
}

/** What belongs to each series, in the order given. */
function grouped<T extends { supplierId: number; itemId: number }>(all: T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const each of all) {
    const key = keyOf(each.supplierId, each.itemId)
    const group = groups.get(key)
    if (group) group.push(each)
    else groups.set(key, [each])
  }
  return groups
}

function keyOf(supplierId: number, itemId: number): string {
  return `${supplierId}/${itemId}`
}
