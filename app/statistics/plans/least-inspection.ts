// Rectifying single plans after Dodge & Romig: a promise kept with the fewest units tested, rejected lots tested whole.
import { count, exceeds, openProbability } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import { rootBetween } from '../root.ts'
import type { LotRisk } from './plan.ts'
import { lotTail } from './tail.ts'
import { leastSampleSize, type PlanNumbers } from './two-points.ts'

/** A single plan and the average number of units it tests at the process average, rejected lots included. */
export type RectifyingPlan = PlanNumbers & { readonly averageTotalInspection: number }

/**
 * The single plan that keeps the average outgoing quality limit with the least average total inspection.
 *
 * @param lotSize N ≥ 1 units
 * @param limit the worst average outgoing fraction allowed, in (0, 1); units found are replaced by conforming ones
 * @param processAverage the fraction nonconforming that usually comes, from 0 to below `limit`
 * @returns acceptance number below the sample size; the smaller sample where two cost the same
 * @throws RangeError that names the argument out of range
 *
 * Source: principle of H. F. Dodge & H. G. Romig (1941, 1959); limit and inspection by the binomial law, exactly, where their
 * tables use bands and the Poisson law.
 *
 * @example designForOutgoingLimit({ lotSize: 5000, limit: 0.03, processAverage: 0.01 }) // 64 units, acceptance number 3
 */
export function designForOutgoingLimit(requirements: {
  lotSize: number
  limit: number
  processAverage: number
}): RectifyingPlan {
  const { lotSize, limit, processAverage } = requirements
  count('lotSize', lotSize, 1)
  openProbability('limit', limit)
  if (!(processAverage >= 0 && processAverage < limit))
    throw new RangeError(`processAverage must be from 0 to below limit (${limit}), not ${processAverage}`)

  return leastInspection(lotSize, processAverage, lotSize - 1, (c) => leastForLimit(lotSize, limit, c))
}

/**
 * The single plan that keeps the consumer's risk for one lot with the least average total inspection.
 *
 * @param lotSize N ≥ 1 units
 * @param consumer the lot tolerance: that many nonconforming units, 1 to N, are accepted with at most this risk
 * @param processAverage the fraction nonconforming that usually comes, from 0 to below the tolerance's share of the lot
 * @throws RangeError that names the argument out of range
 *
 * Source: principle of H. F. Dodge & H. G. Romig (1941, 1959); the risk by the hypergeometric law as in their tables.
 *
 * @example designForLotTolerance({ lotSize: 5000, consumer: { nonconforming: 50, risk: 0.1 }, processAverage: 0.0025 })
 * // 766 units, acceptance number 4
 */
export function designForLotTolerance(requirements: {
  lotSize: number
  consumer: LotRisk
  processAverage: number
}): RectifyingPlan {
  const { lotSize, consumer, processAverage } = requirements
  const { nonconforming, risk } = consumer
  count('lotSize', lotSize, 1)
  count('consumer.nonconforming', nonconforming, 1, lotSize)
  openProbability('consumer.risk', risk)
  const share = nonconforming / lotSize
  if (!(processAverage >= 0 && processAverage < share))
    throw new RangeError(`processAverage must be from 0 to below the lot tolerance (${share}), not ${processAverage}`)

  const points = { acceptance: lotTail({ lotSize, nonconforming }, -1, risk), consumersRisk: risk, most: lotSize }
  return leastInspection(lotSize, processAverage, nonconforming - 1, (c) =>
    leastSampleSize(points, c, ((c + 1) / nonconforming) * lotSize),
  )
}

/**
 * The acceptance number, and with it the sample size `least(c)`, of least average total inspection.
 *
 * Both `least(c)` and, for one c, the inspection of a larger sample rise. So no c between two others costs less than
 * the lower one's sample size with the upper one's acceptance number: what cannot be the best is never looked at.
 */
function leastInspection(
  lotSize: number,
  fraction: number,
  most: number,
  least: (c: number) => number,
): RectifyingPlan {
  const inspection = (n: number, c: number) => n + (lotSize - n) * binomial.moreThan(c, { sampleSize: n, fraction })
  let best: RectifyingPlan = { sampleSize: lotSize, acceptanceNumber: 0, averageTotalInspection: lotSize }
  const tried = (c: number): number => {
    const n = least(c)
    const averageTotalInspection = inspection(n, c)
    if (
      averageTotalInspection < best.averageTotalInspection ||
      (averageTotalInspection === best.averageTotalInspection && n < best.sampleSize)
    )
      best = { sampleSize: n, acceptanceNumber: c, averageTotalInspection }
    return n
  }
  const between = (low: number, nLow: number, high: number): void => {
    if (high - low < 2 || inspection(nLow, high - 1) > best.averageTotalInspection) return
    const middle = Math.floor((low + high) / 2)
    const nMiddle = tried(middle)
    between(low, nLow, middle)
    between(middle, nMiddle, high)
  }
  const ladder = [{ c: -1, n: 0 }]
  for (let c = 0; ; c = Math.min(most, 2 * c + 1)) {
    const n = tried(c)
    ladder.push({ c, n })
    if (c === most || n > best.averageTotalInspection) break
  }
  for (const [index, { c, n }] of ladder.entries()) between(c, n, ladder[index + 1]?.c ?? c)
  return best
}

/** Smallest sample size above c whose outgoing quality keeps the limit: the quality is nearly y/n − y/N, with y of c alone. */
function leastForLimit(N: number, limit: number, c: number): number {
  let short = c
  let enough = N
  let n = Math.round(sizeFor(0.37 + 0.75 * c, limit, N))
  for (let turn = 0; enough - short > 1; turn++) {
    if (!(n > short && n < enough) || turn > 20) n = Math.floor((short + enough) / 2)
    const worst = worstOutgoing(n, c, N)
    const met = !exceeds(worst, limit)
    if (met) enough = n
    else short = n
    const next = Math.ceil(sizeFor(worst / (1 / n - 1 / N), limit, N))
    n = met ? Math.min(next, enough - 1) : Math.max(next, short + 1)
  }
  return enough
}

function sizeFor(y: number, limit: number, N: number): number {
  return (y * N) / (limit * N + y)
}

/** The outgoing quality limit of one single plan, c < n: its slope is 0 where P(X ≤ c) = (c + 1) · density(c + 1). */
function worstOutgoing(n: number, c: number, N: number): number {
  const accepted = (fraction: number) => binomial.atMost(c, { sampleSize: n, fraction })
  const slope = (fraction: number) =>
    Math.log(accepted(fraction) / ((c + 1) * binomial.density(c + 1, { sampleSize: n, fraction })))
  const worst = rootBetween((0.25 * (c + 1)) / n, (c + 1) / n, slope)
  return worst * accepted(worst) * ((N - n) / N)
}
