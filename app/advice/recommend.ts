// Which way is recommended: the protection that the buyer demands first, then the least cost.
import type { AssessedAlternative, EvaluatedAlternative } from './evaluate.ts'

export type Recommendation = {
  chosen: EvaluatedAlternative
  /** critical: the item is always tested whole; protection: the cheapest way of all does not protect enough; cost: it does */
  because: 'critical' | 'protection' | 'cost'
  /** the cheapest way of all, protection or not */
  cheapest: EvaluatedAlternative
  /** cents that the demand costs on average: chosen less cheapest */
  priceOfProtection: number
}

/** Picks among assessed ways; every cord must be one of them, as it always protects. */
export function recommend(ways: EvaluatedAlternative[], { critical }: { critical: boolean }): Recommendation {
  const cheapest = cheapestOf(ways)
  const chosen = critical
    ? cheapestOf(ways.filter(({ kind }) => kind === 'every-cord'))
    : cheapestOf(ways.filter(({ protects }) => protects))
  const because = critical ? 'critical' : chosen === cheapest ? 'cost' : 'protection'
  return { chosen, because, cheapest, priceOfProtection: chosen.cost.total - cheapest.cost.total }
}

export type RecommendationByProtection = {
  chosen: AssessedAlternative
  because: 'critical' | 'fewest'
}

/** Where nothing is believed of the supplier: of the ways that protect the one with the fewest cords at most. */
export function recommendByProtection(
  ways: AssessedAlternative[],
  { critical }: { critical: boolean },
): RecommendationByProtection {
  const open = ways.filter(({ kind, protects }) => (critical ? kind === 'every-cord' : protects))
  const chosen = open.reduce((best, next) => (next.testsAtMost < best.testsAtMost ? next : best))
  return { chosen, because: critical ? 'critical' : 'fewest' }
}

type Priced = { cost: { total: number }; tests: number }

/** Of two at the same cost the one with fewer tests. */
export function cheapestOf<Way extends Priced>(ways: Way[]): Way {
  return ways.reduce((best, next) =>
    next.cost.total < best.cost.total || (next.cost.total === best.cost.total && next.tests < best.tests) ? next : best,
  )
}
