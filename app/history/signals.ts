// Series whose latest lot stands out, or that are inspected more strictly than normal: for the work list.
import { asc } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { items, seriesNotes, suppliers } from '../../db/schema/register.ts'
import { type Run, runOf } from '../kit/task.ts'
import { piecesOf } from './counted.ts'
import { countedLots } from './counted-lots.ts'
import { sampledCords } from './sampled-cords.ts'
import { seriesTermsOf } from './series/terms.ts'
import { piecesOfTrend } from './series/trend.ts'
import { type SeriesSignal, signalTask } from './signal-sums.ts'

/** A series without a decided lot for longer than this is no news. */
const newsDays = 60

/** Signals of all series that had a lot decided lately, by supplier. */
export async function seriesSignals(db: Db, run: Run, now: Date): Promise<SeriesSignal[]> {
  const newsFrom = now.getTime() - newsDays * 86_400_000
  const bySeries = grouped(await countedLots(db, {}))
  const lively = [...bySeries.values()].filter((lots) =>
    lots.some(({ decided }) => (decided?.at.getTime() ?? 0) > newsFrom),
  )
  if (lively.length === 0) return []
  const sampled = await sampledCords(db)
  const names = new Map((await db.select().from(suppliers)).map((supplier) => [supplier.id, supplier.name]))
  const kinds = new Map((await db.select().from(items)).map((item) => [item.id, item]))
  const notes = grouped(await db.select().from(seriesNotes).orderBy(asc(seriesNotes.id)))
  const series = lively.map((lots) => {
    const { supplierId, itemId } = lots[0] ?? { supplierId: 0, itemId: 0 }
    const item = kinds.get(itemId)
    return {
      supplier: { id: supplierId, name: names.get(supplierId) ?? '' },
      item: { id: itemId, name: item?.name ?? '' },
      lots: lots.filter(({ decided }) => decided),
      notes: notes.get(keyOf(supplierId, itemId)) ?? [],
      terms: seriesTermsOf(item),
    }
  })
  const pieces = series.length * piecesOfTrend + sampled.length + piecesOf(lively.flat())
  const signals = await runOf(pieces, run)(signalTask, { series, sampled })
  return signals.toSorted((one, other) => one.supplier.name.localeCompare(other.supplier.name))
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
