// What the recorded sample proves of the lot and of the cords nobody tested.
import { lowerBoundInLot, upperBoundInLot } from '../../statistics/bounds/lot.ts'

/** Counts are cords; the bounds are one-sided, each at the confidence named. */
export type Proof = {
  confidence: number
  lotSize: number
  recorded: number
  found: number
  /** sample cords not recorded: above 0 after a stop at the rejection number */
  leftOfSample: number
  /** cords of the lot that do not count as recorded */
  untested: number
  /** most cords of the lot that may not conform, those found included */
  upperInLot: number
  /** fewest cords of the lot that do not conform, those found included */
  lowerInLot: number
  /** most of the untested cords that may not conform */
  upperInUntested: number
  /** found ÷ recorded carried over to the untested cords; undefined after a stop, where it would be biased */
  expectedInUntested: number | undefined
}

const confidence = 0.95

/**
 * Exact bounds from a sample drawn at random, of which testing may have stopped at the rejection number.
 *
 * After a stop the upper bound takes every sample cord that was left out as nonconforming, and the lower bound as
 * conforming. Cords are tested carton after carton, not in the order drawn, so the ones recorded before a stop come from
 * the first cartons and are no random sample of the lot; the sample as a whole is. These bounds are never beyond those
 * of the finished sample, and so they cover at least as often, wherever the nonconforming cords lie and wherever one stops.
 * (The bound of the recorded cords alone would not: the test shows a lot in which it covers 1 time in 2.)
 *
 * @param found nonconforming among the recorded cords
 * @example proofOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 }).upperInUntested // 27
 */
export function proofOf(sample: { lotSize: number; sampleSize: number; recorded: number; found: number }): Proof {
  const { lotSize, sampleSize, recorded, found } = sample
  const leftOfSample = sampleSize - recorded
  const untested = lotSize - recorded
  const upperInLot = upperBoundInLot({ lotSize, sampleSize, found: found + leftOfSample, confidence })
  return {
    confidence,
    lotSize,
    recorded,
    found,
    leftOfSample,
    untested,
    upperInLot,
    lowerInLot: lowerBoundInLot({ lotSize, sampleSize, found, confidence }),
    upperInUntested: upperInLot - found,
    expectedInUntested: leftOfSample === 0 ? (found / recorded) * untested : undefined,
  }
}
