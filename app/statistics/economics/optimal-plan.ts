// The single plan of least expected cost, found exactly among all of them, no test and every unit included.
import { count } from '../check.ts'
import * as betaBinomial from '../distributions/beta-binomial.ts'
import { checkEconomics, costOfRejection, meanOf } from './costs.ts'
import type { EconomicModel } from './expected-cost.ts'

/** A single plan and its expected cost. */
export type CostedPlan = { readonly sampleSize: number; readonly acceptanceNumber: number; readonly cost: number }

/**
 * Single plan of least expected cost over all sample sizes from 0 (accept untested) to the lot, with their best acceptance
 * numbers; ties, up to rounding, go to the smaller sample size, then to the smaller acceptance number.
 *
 * Two facts make the search short and keep it exact. For a sample size the best acceptance number is known: the largest
 * count after which accepting still costs less than rejecting. And what a sample saves beside its own cost never falls
 * with its size, since one unit more tells more; so between two sample sizes nothing saves more than the larger one
 * could at the cost of the smaller, and most intervals are dismissed whole.
 *
 * @throws RangeError that names the argument out of range
 *
 * Source: preposterior analysis under a beta prior (Raiffa & Schlaifer 1961; A. Hald 1960, both from memory); the test
 * compares every plan of small lots by exact fractions.
 *
 * @example optimalPlan({ lotSize: 50, prior: { a: 1, b: 9 }, costs: { test: 2, escape: 30, rejection: 0 },
 *   afterRejection: 'screen' }) // { sampleSize: 14, acceptanceNumber: 0, cost: 89.43 }
 */
export function optimalPlan(economicModel: EconomicModel): CostedPlan {
  count('lotSize', economicModel.lotSize)
  checkEconomics(economicModel)

  const grid = gridOf(economicModel)
  let best = grid.reduce(better)
  const open = grid.slice(1).map((high, index): [Candidate, Candidate] => [grid[index]!, high])
  // Intervals near the best so far come off the stack first: the sooner the best is known, the more is dismissed.
  open.sort(([, one], [, other]) => other.cost - one.cost)
  for (let interval = open.pop(); interval; interval = open.pop()) {
    const [low, high] = interval
    if (high.sampleSize - low.sampleSize < 2 || !mayHold(low, high, best, economicModel)) continue
    const middle = candidate(Math.floor((low.sampleSize + high.sampleSize) / 2), economicModel)
    best = better(best, middle)
    open.push([low, middle], [middle, high])
  }
  const { sampleSize, acceptanceNumber, cost } = best
  return { sampleSize, acceptanceNumber, cost }
}

/**
 * The best plan with a sample size, valued twice: by its cost, and where rejected lots are screened by its gain against testing
 * every unit. Where nearly every lot is rejected all costs are nearly that of testing every unit and only gains keep their
 * digits; where few are, only costs do. `rest` is the cost without that of the sample, `saving` the gain per untested unit.
 */
type Candidate = CostedPlan & {
  readonly rest: number
  readonly costDoubt: number
  readonly saving: number
  readonly gain: number
  readonly gainDoubt: number
}

/** Two values that differ less, relatively, are the same: their last digits are rounding. */
const rounding = 1e-13

function better(one: Candidate, other: Candidate): Candidate {
  const [smaller, larger] = one.sampleSize < other.sampleSize ? [one, other] : [other, one]
  const costDoubt = Math.max(one.costDoubt, other.costDoubt)
  const gainDoubt = Math.max(one.gainDoubt, other.gainDoubt)
  const ahead = costDoubt <= gainDoubt ? larger.cost < smaller.cost - costDoubt : larger.gain > smaller.gain + gainDoubt
  return ahead ? larger : smaller
}

/** Whether a sample size strictly between the two may do better than the best so far, or as well with a smaller sample. */
function mayHold(low: Candidate, high: Candidate, best: Candidate, { lotSize, costs }: EconomicModel): boolean {
  const { costDoubt, gainDoubt } = best
  if (high.saving < 0 && best.gain >= 0) return false // even a clean sample of the larger size is worth rejecting
  const dearer = costs.test * (low.sampleSize + 1) + high.rest - best.cost
  const short = best.gain - (lotSize - low.sampleSize - 1) * Math.max(0, high.saving)
  if (dearer > costDoubt || short > gainDoubt) return false
  return low.sampleSize < best.sampleSize || (costDoubt <= gainDoubt ? dearer < -costDoubt : short < -gainDoubt)
}

/** Sample sizes in steps of about an eighth, as far as the sample alone costs less than the best so far, and the whole lot. */
function gridOf(economicModel: EconomicModel): Candidate[] {
  const grid = [candidate(0, economicModel)]
  if (economicModel.lotSize === 0) return grid
  const whole = candidate(economicModel.lotSize, economicModel)
  let least = Math.min(grid[0]!.cost, whole.cost)
  for (
    let size = 1;
    size < economicModel.lotSize && economicModel.costs.test * size <= least;
    size += Math.ceil(size / 8)
  ) {
    const next = candidate(size, economicModel)
    least = Math.min(least, next.cost)
    grid.push(next)
  }
  return [...grid, whole]
}

function candidate(sampleSize: number, economicModel: EconomicModel): Candidate {
  const { lotSize, prior, costs, afterRejection } = economicModel
  const untested = lotSize - sampleSize
  const worthAccepting = largestWorthAccepting(sampleSize, economicModel)
  const acceptanceNumber = Math.min(sampleSize, Math.max(0, worthAccepting)) // a plan accepts a clean sample
  const weighted = betaBinomial.atMost(acceptanceNumber, { sampleSize, a: prior.a + 1, b: prior.b })
  const rejected = betaBinomial.moreThan(acceptanceNumber, { sampleSize, ...prior })
  const escaping = costs.escape * meanOf(prior) * weighted
  const rest = escaping * untested + costOfRejection(sampleSize, economicModel) * rejected
  const cost = costs.test * sampleSize + rest
  const costed = { sampleSize, acceptanceNumber, cost, rest, costDoubt: rounding * cost }
  if (afterRejection === 'return') return { ...costed, saving: 0, gain: 0, gainDoubt: Number.POSITIVE_INFINITY }

  const sparing = costs.test * betaBinomial.atMost(acceptanceNumber, { sampleSize, ...prior })
  // Where a clean sample is so rare that its chance is below the smallest number, accepting it is still a loss.
  const saving = worthAccepting < 0 ? Math.min(sparing - escaping, -Number.MIN_VALUE) : sparing - escaping
  return {
    ...costed,
    acceptanceNumber: untested === 0 ? 0 : acceptanceNumber, // with nothing left untested every number costs the same
    saving,
    gain: untested * saving,
    gainDoubt: rounding * untested * (sparing + escaping),
  }
}

/** Largest count at which accepting costs less than rejecting; below 0 where even a clean sample is better rejected. */
function largestWorthAccepting(sampleSize: number, { lotSize, prior, costs, afterRejection }: EconomicModel): number {
  const { a, b } = prior
  // Accepting costs escape·untested·(a + x)/(a + b + n), rejecting test·untested or rejection: when screening, untested cancels.
  const screen = afterRejection === 'screen'
  const rejecting = screen ? costs.test : costs.rejection
  const escaping = screen ? costs.escape : costs.escape * (lotSize - sampleSize)
  if (escaping === 0) return rejecting === 0 ? 0 : sampleSize
  const even = (rejecting / escaping) * (a + b + sampleSize)
  return Math.ceil(even * (1 - 1e-12) - a) - 1 // equality, up to rounding, goes to the smaller number
}
