// Which way is recommended: the protection that the buyer demands first, then the least cost.
import type { AssessedAlternative, EvaluatedAlternative } from './evaluate.ts'

export type Recommendation = {
  chosen: EvaluatedAlternative
  /** critical: the item is always tested whole; resubmitted: so a contract that names the standard has it; protection: the cheapest way of all does not protect enough; cost: it does */
  because: 'critical' | 'resubmitted' | 'protection' | 'cost'
  /** the cheapest way of all, protection or not */
  cheapest: EvaluatedAlternative
  /** cents that the demand costs on average: chosen less cheapest */
  priceOfProtection: number
}

/** tightened: a resubmitted lot is to be inspected by the standard's plan for tightened inspection, which is then one of the ways. */
export type Demanded = { critical: boolean; tightened?: boolean }

/** Picks among assessed ways; every cord must be one of them, as it always protects. */
export function recommend(ways: EvaluatedAlternative[], demanded: Demanded): Recommendation {
  const cheapest = cheapestOf(ways)
  const bound = boundTo(demanded, ways)
  const chosen = cheapestOf(ways.filter(({ kind, protects }) => (bound ? kind === bound.kind : protects)))
  const because = bound?.because ?? (chosen === cheapest ? 'cost' : 'protection')
  return { chosen, because, cheapest, priceOfProtection: chosen.cost.total - cheapest.cost.total }
}

export type RecommendationByProtection = {
  chosen: AssessedAlternative
  because: 'critical' | 'resubmitted' | 'fewest'
}

/** Where nothing is believed of the supplier: of the ways that protect the one with the fewest cords at most. */
export function recommendByProtection(ways: AssessedAlternative[], demanded: Demanded): RecommendationByProtection {
  const bound = boundTo(demanded, ways)
  const open = ways.filter(({ kind, protects }) => (bound ? kind === bound.kind : protects))
  const chosen = open.reduce((best, next) => (next.testsAtMost < best.testsAtMost ? next : best))
  return { chosen, because: bound?.because ?? 'fewest' }
}

/**
 * Where the way does not stand open. A tightened plan that protects less than the item demands binds nobody: a lot that went back is not
 * inspected more mildly than it was, so of the ways that keep both demands the usual one is taken.
 */
function boundTo({ critical, tightened }: Demanded, ways: readonly AssessedAlternative[]) {
  if (critical) return { kind: 'every-cord', because: 'critical' } as const
  const keeps = ways.some(({ kind, protects }) => kind === 'standard' && protects)
  return tightened && keeps ? ({ kind: 'standard', because: 'resubmitted' } as const) : undefined
}

type Priced = { cost: { total: number }; tests: number }

/** Of two at the same cost the one with fewer tests. */
export function cheapestOf<Way extends Priced>(ways: Way[]): Way {
  return ways.reduce((best, next) =>
    next.cost.total < best.cost.total || (next.cost.total === best.cost.total && next.tests < best.tests) ? next : best,
  )
}
