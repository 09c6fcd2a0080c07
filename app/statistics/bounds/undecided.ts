// What a sample bounds while some of its units have no result yet: once as if they conformed, once as if they did not.
import { count } from '../check.ts'
import { type LotEvidence, upperBoundInLot } from './lot.ts'

/** Upper bounds on the nonconforming units of the lot, for both answers that the undecided units can still give. */
export type BoundsWithUndecided = { ifConforming: number; ifNonconforming: number }

/**
 * Exact upper confidence bounds on the number of nonconforming units in a lot, those found included, when `undecided`
 * of the units drawn are gone or spoiled and nobody has ruled on them.
 *
 * Whatever they are in truth, the bound that belongs to it holds as `upperBoundInLot` does: the draw was made before.
 *
 * @param evidence sampleSize units drawn, 1 to the lot size; `found` of them known to be nonconforming
 * @param evidence.undecided units drawn without a result, at most sampleSize − found
 * @returns whole units
 * @throws RangeError that names the argument out of range
 *
 * Source: as `upperBoundInLot`.
 *
 * @example boundsWithUndecided({ lotSize: 480, sampleSize: 216, found: 0, undecided: 1, confidence: 0.95 }) // 4 and 8
 */
export function boundsWithUndecided(evidence: LotEvidence & { undecided: number }): BoundsWithUndecided {
  const { undecided, ...decided } = evidence
  const { lotSize, sampleSize, found } = decided
  count('lotSize', lotSize, 1)
  count('sampleSize', sampleSize, 1, lotSize)
  count('found', found, 0, sampleSize)
  count('undecided', undecided, 0, sampleSize - found)

  return {
    ifConforming: upperBoundInLot(decided),
    ifNonconforming: upperBoundInLot({ ...decided, found: found + undecided }),
  }
}
