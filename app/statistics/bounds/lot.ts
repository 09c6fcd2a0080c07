// Exact confidence bounds on the number of nonconforming units in the lot in hand.
import { count, exceeds, openProbability, riskOf } from '../check.ts'
import { atMost, moreThan } from '../distributions/hypergeometric.ts'
import { greatestInteger, leastInteger } from '../search.ts'

/** What a random sample of a lot showed, and how sure a statement about the lot must be. */
export type LotEvidence = { lotSize: number; sampleSize: number; found: number; confidence: number }

/**
 * Exact upper confidence bound on the number of nonconforming units in a lot, those found included.
 *
 * The bound is the largest number for which a random sample would still show `found` or fewer with probability above
 * 1 − confidence. Whatever the true number is, the bound is at least that in `confidence` of random draws or more.
 * No assumption is made about how the lot came to be; the draw must be random over the whole lot.
 *
 * @param lotSize units in the lot, N ≥ 1
 * @param sampleSize units drawn without replacement and tested, 0 ≤ n ≤ N
 * @param found nonconforming units in the sample, 0 ≤ d ≤ n
 * @param confidence one-sided confidence level, 0 < confidence < 1
 * @returns whole units, at least `found`, at most N − n + found
 * @throws RangeError that names the argument out of range
 *
 * Source: the method of C. J. Clopper & E. S. Pearson (1934), Biometrika 26, 404–413, applied to the hypergeometric
 * distribution; its coverage is enumerated in the test.
 *
 * @example upperBoundInLot({ lotSize: 480, sampleSize: 48, found: 0, confidence: 0.95 }) // 27
 */
export function upperBoundInLot(evidence: LotEvidence): number {
  checkLotEvidence(evidence)

  const { lotSize, sampleSize, found, confidence } = evidence
  const risk = riskOf(confidence)
  return greatestInteger(found, lotSize - sampleSize + found, (nonconforming) =>
    exceeds(atMost(found, { lotSize, nonconforming, sampleSize }), risk),
  )
}

/**
 * Exact lower confidence bound on the number of nonconforming units in a lot, those found included.
 *
 * The smallest number for which a random sample would show `found` or more with probability above 1 − confidence.
 *
 * @returns whole units, at least `found`; 0 where none was found
 * @throws RangeError that names the argument out of range
 *
 * Source: as {@link upperBoundInLot}.
 *
 * @example lowerBoundInLot({ lotSize: 60, sampleSize: 12, found: 3, confidence: 0.95 }) // 6
 */
export function lowerBoundInLot(evidence: LotEvidence): number {
  checkLotEvidence(evidence)

  const { lotSize, sampleSize, found, confidence } = evidence
  const risk = riskOf(confidence)
  return leastInteger(found, lotSize - sampleSize + found, (nonconforming) =>
    exceeds(moreThan(found - 1, { lotSize, nonconforming, sampleSize }), risk),
  )
}

/** Refuses evidence that no sample of the lot can give. */
export function checkLotEvidence({ lotSize, sampleSize, found, confidence }: LotEvidence): void {
  count('lotSize', lotSize, 1)
  count('sampleSize', sampleSize, 0, lotSize)
  count('found', found, 0, sampleSize)
  openProbability('confidence', confidence)
}
