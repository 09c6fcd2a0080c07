// The unbiased estimate of the fraction after a plan that may stop early, where found ÷ tested is not one.
import { density } from '../distributions/hypergeometric.ts'
import { type End, type Look, looksUntil } from './ends.ts'

/**
 * Unbiased estimate of the fraction nonconforming after a double, multiple, sequential or curtailed inspection.
 *
 * The share, among all orders of the tested units that lead the plan to this end, of those whose first unit is
 * nonconforming. The first unit is tested whatever the plan, so the mean over all ends is the true fraction, for a
 * process and for a lot in hand alike (there times N for the number nonconforming).
 *
 * @param plan its stages; for an inspection stopped inside a stage the plan `curtailed` gives
 * @param stage number of the stage that ended it, from 1
 * @param found nonconforming units in all, a count that ends the plan at that stage
 * @returns a fraction from 0 to 1
 * @throws RangeError that names the argument out of range
 *
 * Source: M. A. Girshick, F. Mosteller & L. J. Savage (1946), Ann. Math. Statist. 17, 13–23 (from memory).
 *
 * @example unbiasedFractionAfter({ plan: { stages: [{ sampleSize: 80, acceptanceNumber: 0, rejectionNumber: 3 },
 *   { sampleSize: 160, acceptanceNumber: 3, rejectionNumber: 4 }] },
 *   stage: 2, found: 2 }) // 0.01663: 159 ÷ 9560, where found ÷ tested is 2 ÷ 160
 */
export function unbiasedFractionAfter(end: End): number {
  const { earlier, last } = looksUntil(end)

  let known = [0] // estimates for the counts a stage is begun with; before any test there is none to weigh
  for (const [index, look] of earlier.entries()) {
    const next = earlier[index + 1] ?? last
    known = Array.from(next.before.share, (_, i) => estimateAt(next.before.from + i, look, known))
  }
  return estimateAt(end.found, last, known)
}

/** Estimate at a count after a stage, from those at the counts before it, weighed by the orders that join them. */
function estimateAt(found: number, { before, sampleSize }: Look, known: readonly number[]): number {
  if (before.tested === 0) return sampleSize === 0 ? 0 : found / sampleSize
  let orders = 0
  let firstNonconforming = 0
  for (const [i, share] of before.share.entries()) {
    const weight =
      share * density(before.from + i, { lotSize: sampleSize, nonconforming: found, sampleSize: before.tested })
    orders += weight
    firstNonconforming += weight * known[i]! // one for each share
  }
  return firstNonconforming / orders
}
