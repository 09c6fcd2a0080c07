// How many units would have had to be tested to show that a lot holds fewer than a claimed number.
import { count, exceeds, openProbability, riskOf } from '../check.ts'
import { atMost } from '../distributions/hypergeometric.ts'
import { leastInteger } from '../search.ts'

export type Claim = { lotSize: number; fewerThan: number; found: number; confidence: number }

/**
 * Smallest sample size with which `found` nonconforming units show, with this confidence, that the lot holds fewer than
 * claimed: the least n for which `upperBoundInLot` is below `fewerThan`.
 *
 * @param lotSize units in the lot, N ≥ 1
 * @param fewerThan the claimed number, from 1 to N units
 * @param found nonconforming units in the sample, from 0 to fewerThan − 1: a sample that holds the number refutes the claim
 * @param confidence one-sided confidence level, 0 < confidence < 1
 * @returns whole units, from 1 to N
 * @throws RangeError that names the argument out of range
 *
 * Formula: the least n with P(X ≤ found | N, D = fewerThan, n) ≤ 1 − confidence; equality counts as met. For none found
 * it is the zero-acceptance plan of `designZeroForLot`.
 *
 * @example sampleToShow({ lotSize: 480, fewerThan: 5, found: 0, confidence: 0.95 }) // 216
 */
export function sampleToShow({ lotSize, fewerThan, found, confidence }: Claim): number {
  count('lotSize', lotSize, 1)
  count('fewerThan', fewerThan, 1, lotSize)
  count('found', found, 0, fewerThan - 1)
  openProbability('confidence', confidence)

  const risk = riskOf(confidence)
  return leastInteger(
    found + 1,
    lotSize,
    (sampleSize) => !exceeds(atMost(found, { lotSize, nonconforming: fewerThan, sampleSize }), risk),
  )
}
