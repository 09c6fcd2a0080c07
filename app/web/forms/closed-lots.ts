// What the address of the closed lots may hold; what cannot be read stands for no wish.
import { z } from 'zod'
import { startOfDay } from '../../../views/figures.ts'
import { type ClosedQuery, type ClosedWish, closedOrders } from '../../desk/closed-lots.ts'
import { wordsIn } from '../../desk/find.ts'
import { calendarDay } from '../../kit/fields.ts'
import { largestId } from '../../kit/limits.ts'
import { lotStates } from '../../terms/lot.ts'

const number = (most: number) => z.coerce.number().int().min(1).max(most).optional().catch(undefined)
const day = calendarDay('There is no such day').optional().catch(undefined)

export const closedQuery: z.ZodType<ClosedQuery> = z.object({
  find: z.string().trim().max(100).default('').catch(''),
  supplier: number(largestId),
  item: number(largestId),
  state: z.enum(lotStates).optional().catch(undefined),
  from: day,
  until: day,
  order: z.enum(closedOrders).default('latest').catch('latest'),
  page: z.coerce.number().int().min(1).max(100_000).default(1).catch(1),
})

/** Days are whole ones in the firm's time zone, the last included. */
export function wishFrom({ find, supplier, item, state, from, until, order, page }: ClosedQuery): ClosedWish {
  return {
    words: wordsIn(find),
    supplierId: supplier,
    itemId: item,
    state,
    from: from === undefined ? undefined : startOfDay(from),
    until: until === undefined ? undefined : startOfDay(until, 1),
    order,
    page,
  }
}
