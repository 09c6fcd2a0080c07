// Lots that wait for nothing any more: found, sorted, and a page at a time.
import { and, asc, desc, eq, gte, isNotNull, lt, type SQL } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items, suppliers } from '../../db/schema/register.ts'
import type { LotState } from '../terms/lot.ts'
import { foundBy } from './find.ts'
import { type LotLine, lotLines } from './work-list.ts'

export const closedOrders = ['latest', 'oldest', 'supplier', 'item', 'largest'] as const
export type ClosedOrder = (typeof closedOrders)[number]

/** As the address holds it: ids, days such as 2026-11-27. */
export type ClosedQuery = {
  find: string
  supplier?: number | undefined
  item?: number | undefined
  state?: LotState | undefined
  from?: string | undefined
  until?: string | undefined
  order: ClosedOrder
  page: number
}

export type ClosedWish = {
  words: readonly string[]
  supplierId: number | undefined
  itemId: number | undefined
  state: LotState | undefined
  /** closed at this instant or later, and before that one */
  from: Date | undefined
  until: Date | undefined
  order: ClosedOrder
  /** from 1 */
  page: number
}

/** `more`: there is a page after this one. */
export type ClosedLots = { lots: LotLine[]; more: boolean }

const lotsAtOnce = 50

const orders: Record<ClosedOrder, SQL[]> = {
  latest: [desc(lots.doneAt), desc(lots.id)],
  oldest: [asc(lots.doneAt), asc(lots.id)],
  supplier: [asc(suppliers.name), desc(lots.doneAt), desc(lots.id)],
  item: [asc(items.name), desc(lots.doneAt), desc(lots.id)],
  largest: [desc(lots.announcedSize), desc(lots.id)],
}

export async function closedLots(db: Db, wish: ClosedWish): Promise<ClosedLots> {
  const { words, supplierId, itemId, state, from, until, order, page } = wish
  const which = and(
    isNotNull(lots.doneAt),
    foundBy(words),
    supplierId === undefined ? undefined : eq(lots.supplierId, supplierId),
    itemId === undefined ? undefined : eq(lots.itemId, itemId),
    state && eq(lots.state, state),
    from && gte(lots.doneAt, from),
    until && lt(lots.doneAt, until),
  )
  const found = await lotLines(db, which, (query) =>
    query
      .orderBy(...orders[order])
      .limit(lotsAtOnce + 1)
      .offset((page - 1) * lotsAtOnce),
  )
  return { lots: found.slice(0, lotsAtOnce), more: found.length > lotsAtOnce }
}
