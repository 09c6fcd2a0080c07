// Exact confidence bounds on the number of nonconforming units among those that were not tested.
import { type LotEvidence, lowerBoundInLot, upperBoundInLot } from './lot.ts'

/**
 * Exact upper confidence bound on the number of nonconforming units among the untested.
 *
 * The bound on the lot less those found, which are known. It holds in `confidence` of random draws or more.
 *
 * @param evidence as for `upperBoundInLot`
 * @returns whole units, from 0 to N − n
 * @throws RangeError that names the argument out of range
 *
 * @example upperBoundInRemainder({ lotSize: 480, sampleSize: 48, found: 0, confidence: 0.95 }) // 27: of the 432 untested
 */
export function upperBoundInRemainder(evidence: LotEvidence): number {
  return upperBoundInLot(evidence) - evidence.found
}

/**
 * Exact lower confidence bound on the number of nonconforming units among the untested: those surely still there.
 *
 * @returns whole units, from 0 to N − n
 * @throws RangeError that names the argument out of range
 *
 * @example lowerBoundInRemainder({ lotSize: 60, sampleSize: 12, found: 3, confidence: 0.95 }) // 3
 */
export function lowerBoundInRemainder(evidence: LotEvidence): number {
  return lowerBoundInLot(evidence) - evidence.found
}
