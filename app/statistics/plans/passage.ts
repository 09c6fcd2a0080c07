// Which counts keep a plan undecided, and in what share of all orders of the units the plan gets that far.
import { density } from '../distributions/hypergeometric.ts'
import type { Stage, Stages } from './plan.ts'

/** After a stage: `share[i]` of the orders in which `from + i` were found have met no verdict yet. */
export type Undecided = { readonly tested: number; readonly from: number; readonly share: Float64Array }

/** Before any test: nothing found, nothing decided. */
const start: Undecided = { tested: 0, from: 0, share: Float64Array.of(1) }

/** A density so far below the sum changes none of its digits, nor do all those beyond it. */
const negligible = 1e-24

/**
 * What is undecided before each stage, and after the last one (nothing).
 *
 * Given how many were found so far, every order of the tested units is equally likely whatever the quality of lot or
 * process. So the share of orders that met no verdict belongs to the plan alone, and the chance to stand undecided at
 * `found` after a stage is share × density(found), for every lot and every process. All terms are positive: nothing cancels.
 */
export function undecidedBefore({ stages }: Stages): Undecided[] {
  const passages = [start]
  let before = start
  for (const stage of stages) {
    before = passed(before, stage)
    passages.push(before)
  }
  return passages
}

/** Of the orders in which a stage ends with `from`, `from + 1`, … `to` found, the shares that were undecided before it; none if none were. */
export function sharesReaching(before: Undecided, sampleSize: number, from: number, to: number): Float64Array {
  const share = new Float64Array(before.share.length === 0 ? 0 : Math.max(0, to - from + 1))
  if (before === start) return share.fill(1)
  return share.map((_, i) => shareOf(from + i, sampleSize, before))
}

function passed(before: Undecided, { sampleSize, acceptanceNumber, rejectionNumber }: Stage): Undecided {
  const most = before.from + before.share.length - 1 + sampleSize - before.tested
  const from = Math.max(acceptanceNumber + 1, before.from)
  const to = Math.min(rejectionNumber - 1, most)
  return { tested: sampleSize, from, share: sharesReaching(before, sampleSize, from, to) }
}

/** Sum over the earlier counts d of share(d) · h(d | N, D, n): from the greatest density outwards, while terms still count. */
function shareOf(found: number, sampleSize: number, { tested: n, from, share }: Undecided): number {
  const N = sampleSize
  const D = found
  const first = Math.max(from, D - (N - n))
  const last = Math.min(from + share.length - 1, D)
  if (first > last) return 0
  const greatest = Math.min(last, Math.max(first, Math.floor(((n + 1) * (D + 1)) / (N + 2))))
  const middle = density(greatest, { lotSize: N, nonconforming: D, sampleSize: n })
  let total = 0
  for (let d = greatest, term = middle; d <= last && term > total * negligible; d++) {
    total += term * share[d - from]!
    term *= ((D - d) * (n - d)) / ((d + 1) * (N - D - n + d + 1))
  }
  for (let d = greatest, term = middle; d > first && term > total * negligible; d--) {
    term *= (d * (N - D - n + d)) / ((D - d + 1) * (n - d + 1))
    total += term * share[d - 1 - from]!
  }
  return total
}
