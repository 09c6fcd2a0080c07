// The arithmetic of suppliers side by side: what the next lot of each may hold, whose lots may differ, and how sure their order is.
import type { Task } from '../kit/task.ts'
import * as beta from '../statistics/distributions/beta.ts'
import { type Belief, chanceLower } from '../statistics/history/lower.ts'
import { type Ranked, ranking } from '../statistics/history/ranking.ts'
import type { FinishedLot } from './finished.ts'
import { priorOfFinished } from './series-prior.ts'

/** A supplier's finished lots of one item, in the order of their decisions. */
export type SuppliersLots = { id: number; name: string; finished: Pick<FinishedLot, 'lotId' | 'tested' | 'found'>[] }

/** The share of the next lot, 0 to 1: its mean, and an interval at 95 %. */
export type NextShare = { mean: number; lower: number; upper: number }

export type ComparedSupplier = Pick<SuppliersLots, 'id' | 'name'> & {
  /** finished lots, and the latest of them, latest first */
  lots: number
  latest: SuppliersLots['finished']
  /** undefined under five finished lots: of so few nothing is said of the next */
  next: (NextShare & { ranked: Ranked }) | undefined
}

/** How often the next lot of the one has a lower share than that of the other. */
export type Pair = { lower: string; other: string; chance: number; against: number }

export type SupplierRanking = {
  /** by name: an order by share would look surer than it is */
  suppliers: ComparedSupplier[]
  /** each two of those with five finished lots, the surest first */
  pairs: Pair[]
}

const confidence = 0.95
const placeConfidence = 0.9
/** So many lots are named. */
const latestShown = 3
/** More pairs than this are no reading any more. */
const pairsShown = 15

export const rankingTask: Task<SuppliersLots[], SupplierRanking> = {
  name: 'suppliers side by side',
  work(suppliers) {
    const known = suppliers.flatMap((supplier) => {
      const belief = beliefOf(supplier)
      return belief ? [{ supplier, belief }] : []
    })
    const places =
      known.length === 0
        ? []
        : ranking(
            known.map(({ belief }) => belief),
            placeConfidence,
          )
    const nextOf = new Map(
      known.flatMap(({ supplier, belief }, at) => {
        const ranked = places[at]
        return ranked ? [[supplier, { ...shareOf(belief), ranked }] as const] : []
      }),
    )
    return {
      suppliers: suppliers.map((supplier) => {
        const { id, name, finished } = supplier
        const latest = finished.slice(-latestShown).toReversed()
        return { id, name, lots: finished.length, latest, next: nextOf.get(supplier) }
      }),
      pairs: pairsOf(known.map(({ supplier, belief }) => ({ name: supplier.name, belief }))),
    }
  },
}

/** The least a and b that an order is worked out for; below them a share is next to 0 or 1 for certain, which orders no other. */
const leastWeight = 1e-3

/** What the supplier's own finished lots say of its next one, lots differing. */
function beliefOf({ finished }: SuppliersLots): Belief | undefined {
  const prior = priorOfFinished(finished)
  if (prior.kind === 'too-few') return undefined
  return { a: Math.max(leastWeight, prior.a), b: Math.max(leastWeight, prior.b) }
}

function shareOf(belief: Belief): NextShare {
  const tail = (1 - confidence) / 2
  return {
    mean: belief.a / (belief.a + belief.b),
    lower: beta.quantile(tail, belief),
    upper: beta.upperQuantile(tail, belief),
  }
}

function pairsOf(suppliers: { name: string; belief: Belief }[]): Pair[] {
  const pairs = suppliers.flatMap((one, at) =>
    suppliers.slice(at + 1).map((other) => {
      const chance = chanceLower(one.belief, other.belief)
      const against = chanceLower(other.belief, one.belief)
      return chance >= against
        ? { lower: one.name, other: other.name, chance, against }
        : { lower: other.name, other: one.name, chance: against, against: chance }
    }),
  )
  return pairs.toSorted((one, other) => other.chance - one.chance).slice(0, pairsShown)
}
