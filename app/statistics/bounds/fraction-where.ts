// The fraction at which a tail probability is a risk: what every exact bound on a fraction comes down to.
import { rootBetween } from '../root.ts'

/** A tail probability as a function of the fraction, all the rest of the distribution, and the confidence 1 − risk. */
export type Tails = {
  tail: (fraction: number) => number
  rest: (fraction: number) => number
  risk: number
  confidence: number
}

/**
 * The fraction nonconforming at which `tail` equals `risk`, to about 1e-14 of itself.
 *
 * Solved in the log odds, so that a fraction of 1e-20 has as many digits as one of a half, and in the logarithm of
 * the smaller of the tail and the rest, so that neither a risk of 1e-12 nor a confidence of 1e-12 loses any.
 *
 * @param tails `tail` monotone in the fraction, 0 and 1 at its ends in one order or the other; `rest` is 1 − tail by a sum of its own
 */
export function fractionWhere({ tail, rest, risk, confidence }: Tails): number {
  const probability = risk <= confidence ? tail : rest
  const goal = Math.log(Math.min(risk, confidence))
  return fractionOf(rootBetween(-70, 40, (logOdds) => Math.log(probability(fractionOf(logOdds))) - goal))
}

function fractionOf(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds))
}
