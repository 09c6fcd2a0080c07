// What a plan would have done to a lot of which everything is known: how often it accepts, and what then ships.
import { atMost, density } from './distributions/hypergeometric.ts'
import { acceptanceOfLot } from './plans/measures.ts'
import { sharesReaching, undecidedBefore } from './plans/passage.ts'
import type { Stage, Stages } from './plans/plan.ts'
import { rootFactor, stirlingError } from './special.ts'

/** A plan and the lot it is tried on; of `lotSize` units `nonconforming` are known to be nonconforming. */
export type Trial = { plan: Stages; lotSize: number; nonconforming: number }

/**
 * The chance of acceptance, the nonconforming units shipped on average over all draws, and over those that accept.
 */
export type Replay = { acceptance: number; shipped: number; shippedIfAccepted: number }

/**
 * Replays a plan on a fully known lot, over every possible random draw at once.
 *
 * Nonconforming units found in the sample are taken out, a rejected lot ships nothing, and a stage that is begun is
 * finished; `shipped` is E[(D − found) · accepted]. `shippedIfAccepted` is 0 for a plan that cannot accept the lot.
 *
 * @param plan its stages, none larger than the lot
 * @param lotSize units in the lot, N ≥ 0
 * @param nonconforming nonconforming units in it, 0 ≤ D ≤ N
 * @returns a probability and two numbers of units, at most D
 * @throws RangeError that names the argument out of range
 *
 * Formula: (D − d) h(d; N, D, n) = D (1 − n/N) h(d; N − 1, D − 1, n), so the expectation is a tail and nothing cancels.
 *
 * @example replayOnLot({ plan: singlePlan({ sampleSize: 48, acceptanceNumber: 0 }), lotSize: 480, nonconforming: 12 })
 *   // accepts 27.8 % of draws and ships 3.34 nonconforming units on average: 12 whenever it accepts
 */
export function replayOnLot({ plan, lotSize, nonconforming }: Trial): Replay {
  const acceptance = acceptanceOfLot(plan, { lotSize, nonconforming })
  if (plan.stages.length === 0) return { acceptance, shipped: nonconforming, shippedIfAccepted: nonconforming }

  let shipped = 0
  for (const [index, before] of undecidedBefore(plan).entries()) {
    const stage = plan.stages[index]
    if (!stage) break
    for (const [i, share] of before.share.entries()) {
      const found = before.from + i
      const reached = share * density(found, { lotSize, nonconforming, sampleSize: before.tested })
      if (reached > 0)
        shipped += reached * leftInAccepted(stage, lotSize - before.tested, nonconforming - found, { ...before, found })
    }
  }
  const shippedIfAccepted =
    acceptance > 1e-290 ? shipped / acceptance : leftIfAccepted({ plan, lotSize, nonconforming })
  return { acceptance, shipped, shippedIfAccepted }
}

/** E[units left nonconforming · accepted at this stage], the untested lot being of N units with D nonconforming. */
function leftInAccepted(stage: Stage, N: number, D: number, before: { tested: number; found: number }): number {
  const sampleSize = stage.sampleSize - before.tested
  const mayFind = stage.acceptanceNumber - before.found
  if (mayFind < 0 || D === 0) return 0
  const left = D * ((N - sampleSize) / N)
  return left === 0 ? 0 : left * atMost(mayFind, { lotSize: N - 1, nonconforming: D - 1, sampleSize })
}

/**
 * The mean of D − d over the accepting ends where their chances are too small for numbers, by their logarithms:
 * C(n, d) C(N − n, D − d) for n tested and d found, times the share of orders in which the plan gets there. The last
 * digits that the logarithms lose weigh on d alone, which is next to nothing against D where acceptance is so rare.
 */
function leftIfAccepted({ plan, lotSize: N, nonconforming: D }: Trial): number {
  const ends: { left: number; weight: number }[] = []
  for (const [index, before] of undecidedBefore(plan).entries()) {
    const stage = plan.stages[index]
    if (!stage) break
    const { sampleSize: n, acceptanceNumber } = stage
    const least = Math.max(before.from, D - (N - n))
    const shares = sharesReaching(before, n, least, Math.min(acceptanceNumber, n, D))
    // Acceptance is so rare only where nearly every lot holds more: the weights fall from their greatest on either side.
    let highest = Number.NEGATIVE_INFINITY
    for (let i = shares.length - 1; i >= 0; i--) {
      const d = least + i
      const weight = Math.log(shares[i]!) + logChoose(n, d) + logChoose(N - n, D - d)
      if (weight < highest - negligible) break
      highest = Math.max(highest, weight)
      if (shares[i]! > 0) ends.push({ left: D - d, weight })
    }
  }
  const greatest = ends.reduce((most, { weight }) => Math.max(most, weight), Number.NEGATIVE_INFINITY)
  const total = (of: (left: number) => number) =>
    ends.reduce((sum, { left, weight }) => sum + of(left) * Math.exp(weight - greatest), 0)
  return ends.length === 0 ? 0 : total((left) => left) / total(() => 1)
}

/** Weights whose logarithms are so far below the greatest change no digit of the mean. */
const negligible = 60

function logChoose(n: number, k: number): number {
  return logFactorial(n) - logFactorial(k) - logFactorial(n - k)
}

function logFactorial(x: number): number {
  return x === 0 ? 0 : x * Math.log(x) - x + Math.log(rootFactor(x)) / 2 + stirlingError(x)
}
