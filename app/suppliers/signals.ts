// Series whose latest lot stands out, or that are inspected more strictly than normal: for the work list.
import { asc } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { items, seriesNotes, suppliers } from '../../db/schema/register.ts'
import type { SwitchingState } from '../statistics/switching.ts'
import { countedLots } from './history.ts'
import { ratesOf } from './sampled-cords.ts'
import { inOrder } from './series/series.ts'
import { seriesTermsOf } from './series/terms.ts'
import { latestSignal, type TrendPoint, trendOf } from './series/trend.ts'
import { switchingAfter } from './switching.ts'

export type SeriesSignal = {
  supplier: { id: number; name: string }
  item: { id: number; name: string }
  /** the latest lot, where it is beyond what the first ones let expect */
  point: TrendPoint | undefined
  /** where the series is inspected more strictly than normal, or not at all */
  strict: { inspection: 'tightened' | 'discontinued'; reason: SwitchingState['reason'] } | undefined
}

/** A series without a decided lot for longer than this is no news. */
const newsDays = 60

/** Signals of all series that had a lot decided lately, by supplier. */
export async function seriesSignals(db: Db, now: Date): Promise<SeriesSignal[]> {
  const newsFrom = now.getTime() - newsDays * 86_400_000
  const bySeries = grouped(await countedLots(db, {}))
  const lively = [...bySeries.values()].filter((lots) =>
    lots.some(({ decided }) => (decided?.at.getTime() ?? 0) > newsFrom),
  )
  if (lively.length === 0) return []
  const { prior } = await ratesOf(db)
  const names = new Map((await db.select().from(suppliers)).map((supplier) => [supplier.id, supplier.name]))
  const kinds = new Map((await db.select().from(items)).map((item) => [item.id, item]))
  const notes = grouped(await db.select().from(seriesNotes).orderBy(asc(seriesNotes.id)))
  const signals = lively.flatMap((lots) => {
    const { supplierId, itemId } = lots[0] ?? { supplierId: 0, itemId: 0 }
    const item = kinds.get(itemId)
    const { state } = switchingAfter(lots, notes.get(keyOf(supplierId, itemId)) ?? [], seriesTermsOf(item))
    const point = latestSignal(trendOf(inOrder(lots), prior))
    const strict = strictOf(state)
    if (!point && !strict) return []
    const supplier = { id: supplierId, name: names.get(supplierId) ?? '' }
    return [{ supplier, item: { id: itemId, name: item?.name ?? '' }, point, strict }]
  })
  return signals.toSorted((one, other) => one.supplier.name.localeCompare(other.supplier.name))
}

function strictOf({ inspection, reason }: SwitchingState): SeriesSignal['strict'] {
  return inspection === 'tightened' || inspection === 'discontinued' ? { inspection, reason } : undefined
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
