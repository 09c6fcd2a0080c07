// Suppliers side by side: how sure each rate is, and how sure their order.
import { asc, eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { items } from '../../db/schema/register.ts'
import { chanceLower } from '../statistics/history/lower.ts'
import { type Ranked, ranking } from '../statistics/history/ranking.ts'
import { type Rates, ratesOf, type SupplierRate } from './rates.ts'

export type ComparedSupplier = SupplierRate & {
  /** chance to have the lowest share of all, and its place with an interval at 90 % */
  ranked: Ranked
}

/** How often the one has the lower share than the other, given what was tested. */
export type Pair = { lower: string; other: string; chance: number; against: number }

export type SupplierComparison = Pick<Rates, 'prior' | 'priorFrom'> & {
  itemId: number | undefined
  /** items of which any lot was announced, to choose from */
  items: { id: number; name: string }[]
  /** by name: an order by rate would look surer than it is */
  suppliers: ComparedSupplier[]
  /** each two of those with enough data, the surest first */
  pairs: Pair[]
}

export const placeConfidence = 0.9
/** More pairs than this are no reading any more. */
const pairsShown = 15

/** Compares all suppliers with a decided lot, of one item or of everything. */
export async function compareSuppliers(db: Db, itemId?: number): Promise<SupplierComparison> {
  const { suppliers, prior, priorFrom } = await ratesOf(db, itemId)
  const beliefs = suppliers.map(({ rate }) => rate.belief)
  const rankings = beliefs.length === 0 ? [] : ranking(beliefs, placeConfidence)
  const known = await db
    .selectDistinct({ id: items.id, name: items.name })
    .from(items)
    .innerJoin(lots, eq(lots.itemId, items.id))
    .orderBy(asc(items.name))
  return {
    itemId,
    items: known,
    prior,
    priorFrom,
    suppliers: suppliers.flatMap((supplier, at) => {
      const ranked = rankings[at]
      return ranked ? [{ ...supplier, ranked }] : []
    }),
    pairs: pairsOf(suppliers.filter(({ tooLittle }) => !tooLittle)),
  }
}

function pairsOf(suppliers: SupplierRate[]): Pair[] {
  const pairs = suppliers.flatMap((one, at) =>
    suppliers.slice(at + 1).map((other) => {
      const chance = chanceLower(one.rate.belief, other.rate.belief)
      const against = chanceLower(other.rate.belief, one.rate.belief)
      return chance >= against
        ? { lower: one.name, other: other.name, chance, against }
        : { lower: other.name, other: one.name, chance: against, against: chance }
    }),
  )
  return pairs.toSorted((one, other) => other.chance - one.chance).slice(0, pairsShown)
}
