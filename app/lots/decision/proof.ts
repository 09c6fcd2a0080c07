// What the recorded sample proves of the lot and of the cords nobody tested.

/** Counts are cords; the bounds are one-sided, each at the confidence named. */
export type Proof = {
  confidence: number
  lotSize: number
  recorded: number
  found: number
  /** sample cords not recorded: above 0 after a stop at the rejection number */
  leftOfSample: number
  /** cords of the lot that nobody recorded */
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
