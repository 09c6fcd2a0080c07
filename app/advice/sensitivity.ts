// How the expected cost of each way moves with the fraction nonconforming, and where the advice would change.
import * as beta from '../statistics/distributions/beta.ts'
import { breakEvenFraction } from '../statistics/economics/all-or-none.ts'
import { type CostByBelief, costByBelief } from '../statistics/economics/cost-by-belief.ts'
import type { EconomicModel } from '../statistics/economics/expected-cost.ts'
import { beyondVerdictUnderPrior, type FetchedFirst } from '../statistics/economics/first-fetch.ts'
import { unitsSparedUnderPrior } from '../statistics/economics/stopping.ts'
import type { AlternativeKind } from './alternatives.ts'
import { costBeyond, type EvaluatedAlternative } from './evaluate.ts'
import { cheapestOf } from './recommend.ts'

export type Sensitivity = {
  /** from 0 to the end of the chart */
  fractions: number[]
  /** expected cost in cents at each fraction, way by way */
  costs: { kind: AlternativeKind; cents: number[] }[]
  /** density of the belief at each fraction, its highest taken as 1 */
  belief: number[]
  /** test ÷ escape: the fraction at which testing a cord costs as much as letting it through; undefined without escape cost */
  breakEven: number | undefined
  /**
   * the fractions between which the chosen way stays the cheapest that protects, and which takes over below and above; undefined where
   * cost does not decide
   */
  holds: { from: Edge; to: Edge } | undefined
}

/** `other`: the way that is the cheapest beyond; undefined at the end of all fractions. */
export type Edge = { at: number; other: AlternativeKind | undefined }

const steps = 60

/**
 * Costs over a range that holds the break-even and nearly all of the belief.
 *
 * @param fetch as `evaluate` has it
 */
export function sensitivityOf(
  ways: EvaluatedAlternative[],
  chosen: EvaluatedAlternative,
  economicModel: EconomicModel,
  fetch?: FetchedFirst,
): Sensitivity {
  const { costs: unit } = economicModel
  const breakEven = unit.escape > 0 ? breakEvenFraction(unit) : undefined
  const end = Math.min(1, Math.max(0.01, 2.5 * (breakEven ?? 0), 1.25 * beta.quantile(0.95, economicModel.prior)))
  const fractions = Array.from({ length: steps + 1 }, (_, step) => (end * step) / steps)
  const priced = ways.map((way) => ({ ...way, costOf: costWithStops(economicModel, way, fetch) }))
  const costs = priced.map(({ kind, costOf }) => ({ kind, cents: fractions.map((p) => costOf(sharpPrior(p))) }))
  // at 0 and at 1 a belief may stand higher than any number: half a step inside, it does not
  const inside = end / steps / 2
  const density = fractions.map((p) => beta.density(Math.min(Math.max(p, inside), 1 - inside), economicModel.prior))
  const highest = Math.max(...density)
  return {
    fractions,
    costs,
    belief: density.map((value) => (highest > 0 ? value / highest : 0)),
    breakEven,
    holds: rangeOf(
      priced.filter(({ protects }) => protects),
      chosen,
      economicModel,
    ),
  }
}

/** As `evaluate` charges it. */
function costWithStops(
  economicModel: EconomicModel,
  { plan }: EvaluatedAlternative,
  fetch: FetchedFirst | undefined,
): CostByBelief {
  const finished = costByBelief(economicModel, plan)
  const { afterRejection, costs } = economicModel
  const stopped: CostByBelief =
    afterRejection === 'screen'
      ? finished
      : (prior) => finished(prior) - costs.test * unitsSparedUnderPrior(plan, prior)
  if (!fetch) return stopped
  return (prior) => stopped(prior) + costBeyond(beyondVerdictUnderPrior(plan, fetch, prior), economicModel)
}

/** A belief in one fraction, so sharp that no digit shown can tell the difference. */
export function sharpPrior(fraction: number): EconomicModel['prior'] {
  const sharp = 1e12
  return { a: Math.max(fraction * sharp, 1e-90), b: Math.max((1 - fraction) * sharp, 1e-90) }
}

/** The same belief moved to another mean, worth as many cords. */
export function withMean(mean: number, { a, b }: EconomicModel['prior']): EconomicModel['prior'] {
  return { a: Math.max(mean * (a + b), 1e-90), b: Math.max((1 - mean) * (a + b), 1e-90) }
}

type PricedWay = EvaluatedAlternative & { costOf: CostByBelief }

/** Walks outwards from the belief's mean until another way becomes the cheapest that protects. */
function rangeOf(ways: PricedWay[], chosen: EvaluatedAlternative, economicModel: EconomicModel): Sensitivity['holds'] {
  const mean = economicModel.prior.a / (economicModel.prior.a + economicModel.prior.b)
  const cheapestAt = (fraction: number): AlternativeKind => {
    const prior = withMean(fraction, economicModel.prior)
    return cheapestOf(ways.map(({ kind, tests, costOf }) => ({ kind, tests, cost: { total: costOf(prior) } }))).kind
  }
  if (cheapestAt(mean) !== chosen.kind) return undefined
  return { from: edge(mean, 0, chosen.kind, cheapestAt), to: edge(mean, 1, chosen.kind, cheapestAt) }
}

/** The last fraction towards `limit` at which the choice stays; what lies between two looks is halved a dozen times. */
function edge(
  inside: number,
  limit: number,
  chosen: AlternativeKind,
  cheapestAt: (fraction: number) => AlternativeKind,
): Edge {
  const looks = Array.from({ length: 25 }, (_, step) => inside + (limit - inside) * (step / 24) ** 2)
  const first = looks.findIndex((fraction) => cheapestAt(fraction) !== chosen)
  if (first < 0) return { at: limit, other: undefined }
  let known = looks[first - 1] ?? inside
  let beyond = looks[first] ?? limit
  for (let halving = 0; halving < 12; halving++) {
    const middle: number = (known + beyond) / 2
    if (cheapestAt(middle) === chosen) known = middle
    else beyond = middle
  }
  return { at: known, other: cheapestAt(beyond) }
}
