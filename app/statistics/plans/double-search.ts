// The search behind the double plan of least average sample size: exact, by bounds that rule out whole stretches of plans.
import { exceeds } from '../check.ts'
import { leastMeeting } from '../search.ts'
import { TooManySteps } from '../steps.ts'
import { type Tail, tailAt } from './tail.ts'
import { leastSampleSize, type PlanNumbers } from './two-points.ts'

/** The four numbers of a double plan: sample sizes and acceptance numbers, the second ones of both samples together. */
export type DoubleNumbers = {
  readonly firstSample: number
  readonly bothSamples: number
  readonly firstAcceptance: number
  readonly acceptanceNumber: number
}

/** The law of the count t in n units: the possible counts, their density, and density(t + 1) / density(t). */
type Counts = {
  least(n: number): number
  most(n: number): number
  density(t: number, n: number): number
  perCount(n: number, t: number): number
}

export type DoubleSearch = {
  readonly risks: { readonly producer: number; readonly consumer: number }
  /** The smallest single plan for the same risks, to know where to look. */
  readonly single: PlanNumbers
  /** The largest sample there is, and the largest acceptance number that can keep the consumer's risk. */
  readonly most: number
  readonly mostAccepted: number
  readonly good: Counts
  readonly bad: Counts
  /** Chance to find more than c in the producer's quality, and at most c in the consumer's. */
  readonly goodTail: Tail
  readonly badTail: Tail
  /** Terms and tails that the search may look at, and those that it has looked at. */
  readonly mostSteps: number
  steps: number
}

/** A tail takes about as long as so many terms of a sum. */
const tailSteps = 20

type Trial = { -readonly [Name in keyof DoubleNumbers]: number }

/** What is best so far; plans that average as many units or more are not looked at. */
type Best = { plan: DoubleNumbers | undefined; average: number }

/**
 * The best double plan, or undefined where the largest sample leaves no room for one.
 *
 * For one first acceptance number, first samples are looked at in stretches. A larger first sample needs fewer units in
 * the second to keep the consumer's risk, and a larger second acceptance number more. So between first samples x and y
 * the average is at least x + (second sample at y) · (least chance to need it), and the producer is rejected at least
 * as often as with x and that second sample: whole stretches fall away unseen, the others are halved.
 */
export function leastAverage(search: DoubleSearch): DoubleNumbers | undefined {
  const { single, most } = search
  for (let limit = single.sampleSize + 1; ; limit *= 2) {
    const best: Best = { plan: undefined, average: Math.min(limit, most) }
    const centre = Math.round(0.4 * single.acceptanceNumber)
    for (let a1 = centre; a1 < search.mostAccepted; a1++) if (!improve(search, best, a1)) break
    for (let a1 = centre - 1; a1 >= 0; a1--) improve(search, best, a1)
    if (best.plan || limit >= most) return best.plan
  }
}

/** Tries all plans with this first acceptance number; false if no larger one can be better either. */
function improve(search: DoubleSearch, best: Best, a1: number): boolean {
  const { single, risks, most, badTail } = search
  const consumer = { acceptance: badTail, consumersRisk: risks.consumer, most }
  const low = leastSampleSize(consumer, a1, ((a1 + 1) * single.sampleSize) / (single.acceptanceNumber + 1))
  if (low >= best.average) return false
  const trial = { firstSample: low, bothSamples: low, firstAcceptance: a1, acceptanceNumber: a1 + 1 }
  const high = Math.min(most - 1, Math.ceil(best.average) - 1)
  explore(search, best, trial, { low, high, a2: a1 + 1, second: 1 })
  return true
}

/** First samples from `low` to `high`, with what is known of all: the least second acceptance number and second sample. */
type Stretch = { low: number; high: number; a2: number; second: number }

function explore(search: DoubleSearch, best: Best, trial: Trial, { low, high, a2, second }: Stretch): void {
  if (low > high) return
  if (search.steps > search.mostSteps)
    throw new TooManySteps(`consumer and producer must differ more: the search passes ${search.mostSteps} terms`)
  for (trial.acceptanceNumber = a2; ; trial.acceptanceNumber++) {
    if (trial.acceptanceNumber > search.mostAccepted) return
    const need = leastNeed(search, trial, low, high)
    const affordable = need > 0 ? Math.ceil((best.average - low) / need) : search.most
    const most = Math.min(search.most - high, affordable)
    second = leastSecond(search, trial, { firstSample: high, second, most })
    if (low + second * need >= best.average || second > search.most - high) return
    trial.firstSample = low
    trial.bothSamples = low + second
    if (!exceeds(rejection(search, trial), search.risks.producer)) {
      if (low < high) break
      best.plan = { ...trial }
      best.average = low + second * need
      return
    }
  }
  const least = { a2: trial.acceptanceNumber, second }
  const middle = Math.floor((low + high) / 2)
  explore(search, best, trial, { low, high: middle, ...least })
  explore(search, best, trial, { low: middle + 1, high, ...least })
}

/** Least chance that the producer's quality needs the second sample, for first samples from `low` to `high`. */
function leastNeed(search: DoubleSearch, { firstAcceptance, acceptanceNumber }: Trial, low: number, high: number) {
  const { goodTail } = search
  search.steps += 2 * tailSteps
  return Math.max(0, tailAt(goodTail, low, firstAcceptance) - tailAt(goodTail, high, acceptanceNumber))
}

/** Smallest second sample of at least `second` that keeps the consumer's risk after this first sample; above `most` if none up to it does. */
function leastSecond(
  search: DoubleSearch,
  trial: Trial,
  { firstSample, second, most }: { firstSample: number; second: number; most: number },
): number {
  const accepted = (more: number) => {
    trial.firstSample = firstSample
    trial.bothSamples = firstSample + more
    return acceptance(search, trial)
  }
  let low = second
  let high = second
  for (let reach = 1; high <= most && exceeds(accepted(high), search.risks.consumer); reach *= 4) {
    low = high + 1
    high = Math.max(low, Math.min(most, high + reach))
  }
  return high > most ? most + 1 : leastMeeting(low, high, search.risks.consumer, accepted)
}

/**
 * Chance to accept the consumer's quality: at once, or with t found in both samples, of which more than a1 in the first.
 * Given t, the share of orders with more than a1 in the first is a hypergeometric tail, whatever the quality; it grows
 * with t by (n1/n) · h(a1 | n − 1, t, n1 − 1).
 */
function acceptance(search: DoubleSearch, trial: Trial): number {
  const { bad, badTail } = search
  const { firstSample, bothSamples: n, firstAcceptance, acceptanceNumber } = trial
  search.steps += tailSteps
  return (
    tailAt(badTail, firstSample, firstAcceptance) +
    sumOfShares(search, bad, trial, firstAcceptance + 1, Math.min(acceptanceNumber, bad.most(n)))
  )
}

/** Chance to reject the producer's quality: more than a2 in both samples, of which more than a1 in the first. */
function rejection(search: DoubleSearch, trial: Trial): number {
  const { good } = search
  return sumOfShares(search, good, trial, trial.acceptanceNumber + 1, good.most(trial.bothSamples))
}

/** Sum over t from `from` to `to` found in both samples of density(t) · P(more than a1 of them in the first). */
function sumOfShares(search: DoubleSearch, counts: Counts, trial: Trial, from: number, to: number): number {
  const { firstSample: n1, bothSamples: n, firstAcceptance: a1 } = trial
  const start = Math.max(from, counts.least(n))
  let growth = firstGrowth(trial)
  let share = growth
  let density = 0
  let total = 0
  search.steps += a1 + 1
  for (let t = a1 + 1; t <= to; t++, search.steps++) {
    if (t >= start) {
      density = density > 0 ? density * counts.perCount(n, t - 1) : counts.density(t, n)
      total += density * share
      if (density < total * 1e-18) break
    }
    growth *= Math.max(0, (t * (n - t - n1 + a1 + 1)) / ((t - a1) * (n - t)))
    share = Math.min(1, share + growth)
  }
  return total
}

/** The share of orders at t = a1 + 1, all of them in the first sample: the product of (n1 − i)/(n − i), i from 0 to a1. */
function firstGrowth({ firstSample, bothSamples, firstAcceptance }: Trial): number {
  let product = 1
  for (let i = 0; i <= firstAcceptance; i++) product *= (firstSample - i) / (bothSamples - i)
  return product
}
