// Suppliers in order of their fractions nonconforming, with how sure the order is: never a bare league table.
import { between, openProbability, riskOf } from '../check.ts'
import { betaLogit, fromLogit, logBeta } from '../incomplete-beta.ts'
import { nodesBetween } from '../quadrature.ts'
import type { Belief } from './lower.ts'

/** Where one supplier stands among all; rank 1 has the lowest fraction. */
export type Ranked = {
  readonly chanceBest: number
  readonly expectedRank: number
  /** Equal-tailed interval of the rank at the confidence asked for. */
  readonly bestRank: number
  readonly worstRank: number
  /** Chance of each rank, the first for rank 1. */
  readonly chances: readonly number[]
}

/**
 * Chances of every rank for every supplier, their fractions independent beta variables.
 *
 * Given one supplier's fraction, each of the others is lower with a known chance, and the number of lower ones follows from
 * these chances exactly; that is integrated over the supplier's own fraction, in panels cut at the quantiles of all, to
 * about ten digits.
 *
 * @param beliefs posterior of each supplier, at least one; a and b from 1e-3 to 1e12
 * @param confidence of the intervals of ranks, shared by both sides, in (0, 1)
 * @throws RangeError that names the argument out of range
 *
 * @example ranking([{ a: 1, b: 81 }, { a: 4, b: 77 }], 0.9)[0] // best with chance 0.94
 */
export function ranking(beliefs: readonly Belief[], confidence: number): Ranked[] {
  if (beliefs.length === 0) throw new RangeError('beliefs must hold at least one supplier, not none')
  for (const [index, { a, b }] of beliefs.entries()) {
    between(`beliefs[${index}].a`, a, 1e-3, 1e12)
    between(`beliefs[${index}].b`, b, 1e-3, 1e12)
  }
  openProbability('confidence', confidence)

  const chances = rankChances(beliefs)
  const tail = riskOf(confidence) / 2
  return chances.map((own) => {
    let expectedRank = 0
    for (const [index, chance] of own.entries()) expectedRank += (index + 1) * chance
    const bestRank = own.length - rankReached(own.toReversed(), 1 - tail) + 1
    return { chanceBest: own[0]!, expectedRank, bestRank, worstRank: rankReached(own, 1 - tail), chances: [...own] }
  })
}

/** First rank by which the chances have summed to the probability, up to rounding. */
function rankReached(chances: Float64Array, probability: number): number {
  let total = 0
  const index = chances.findIndex((chance) => {
    total += chance
    return total >= probability * (1 - 1e-9)
  })
  return index < 0 ? chances.length : index + 1
}

function rankChances(beliefs: readonly Belief[]): Float64Array[] {
  const size = beliefs.length
  const chances = beliefs.map(() => new Float64Array(size))
  const lower = new Float64Array(size)
  const density = new Float64Array(size)
  const cuts = cutsOf(beliefs)
  for (let panel = 1; panel < cuts.length; panel++)
    for (const { x, weight } of nodesBetween(cuts[panel - 1]!, cuts[panel]!)) {
      for (const [i, belief] of beliefs.entries()) {
        const at = logBeta(fromLogit(x), fromLogit(-x), belief)
        lower[i] = Math.exp(at.lower)
        density[i] = weight * Math.exp(at.power)
      }
      const all = numberLower(lower)
      for (let i = 0; i < size; i++) if (density[i]! > 0) add(chances[i]!, density[i]!, without(all, lower[i]!))
    }
  // What lies outside the outermost cuts is below 1e-11 of each; the rest is brought to 1.
  return chances.map((own) => own.map((chance) => chance / own.reduce((sum, each) => sum + each, 0)))
}

/** Logits between which the integrand is smooth: quantiles of every supplier, ascending, none much nearer than half a narrowest peak. */
function cutsOf(beliefs: readonly Belief[]): number[] {
  const tails = [1e-12, 1e-6, 1e-3, 0.05, 0.5]
  const all = beliefs.flatMap((belief) =>
    tails.flatMap((tail) => [betaLogit(tail, 1 - tail, belief), betaLogit(1 - tail, tail, belief)]),
  )
  const narrowest = Math.min(...beliefs.map(({ a, b }) => Math.sqrt(1 / a + 1 / b)))
  // Below a logit of −690 a fraction is no number any more; what a supplier has there is as good as 0.
  const rising = all.map((logit) => Math.min(690, Math.max(-690, logit))).sort((one, other) => one - other)
  const cuts: number[] = []
  for (const logit of rising) if (cuts.length === 0 || logit > cuts.at(-1)! + narrowest / 2) cuts.push(logit)
  return [...cuts, Math.max(rising.at(-1)!, cuts.at(-1)! + narrowest)]
}

/** Chances that 0, 1, … of all suppliers are lower, each with its own chance. */
function numberLower(lower: Float64Array): Float64Array {
  const chances = new Float64Array(lower.length + 1)
  chances[0] = 1
  for (let i = 0; i < lower.length; i++) {
    const chance = lower[i]!
    for (let k = i + 1; k > 0; k--) chances[k] = chances[k]! * (1 - chance) + chances[k - 1]! * chance
    chances[0]! *= 1 - chance
  }
  return chances
}

/** The same without one of them: divided out from the end where its factor is the larger, so that errors shrink. */
function without(all: Float64Array, chance: number): Float64Array {
  const size = all.length - 1
  const rest = new Float64Array(size)
  if (chance < 0.5)
    for (let k = 0; k < size; k++) rest[k] = (all[k]! - (k > 0 ? rest[k - 1]! * chance : 0)) / (1 - chance)
  else
    for (let k = size - 1; k >= 0; k--)
      rest[k] = (all[k + 1]! - (k < size - 1 ? rest[k + 1]! * (1 - chance) : 0)) / chance
  return rest
}

function add(sum: Float64Array, factor: number, terms: Float64Array): void {
  for (let k = 0; k < sum.length; k++) sum[k]! += factor * terms[k]!
}
