// The arithmetic of suppliers side by side: how sure each rate is, and how sure their order.
import type { Task } from '../kit/task.ts'
import { chanceLower } from '../statistics/history/lower.ts'
import { type Ranked, ranking } from '../statistics/history/ranking.ts'
import { type Rates, ratesFrom, type SampledSupplier, type SupplierRate } from './rates.ts'

export type ComparedSupplier = SupplierRate & {
  /** chance to have the lowest share of all, and its place with an interval at 90 % */
  ranked: Ranked
}

/** How often the one has the lower share than the other, given what was tested. */
export type Pair = { lower: string; other: string; chance: number; against: number }

export type SupplierRanking = Pick<Rates, 'prior' | 'priorFrom'> & {
  /** by name: an order by rate would look surer than it is */
  suppliers: ComparedSupplier[]
  /** each two of those with enough data, the surest first */
  pairs: Pair[]
}

export const placeConfidence = 0.9
/** More pairs than this are no reading any more. */
const pairsShown = 15

export const rankingTask: Task<SampledSupplier[], SupplierRanking> = {
  name: 'suppliers side by side',
  work(sampled) {
    const { suppliers, prior, priorFrom } = ratesFrom(sampled)
    const beliefs = suppliers.map(({ rate }) => rate.belief)
    const rankings = beliefs.length === 0 ? [] : ranking(beliefs, placeConfidence)
    return {
      prior,
      priorFrom,
      suppliers: suppliers.flatMap((supplier, at) => {
        const ranked = rankings[at]
        return ranked ? [{ ...supplier, ranked }] : []
      }),
      pairs: pairsOf(suppliers.filter(({ insufficientData }) => !insufficientData)),
    }
  },
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
