// What a sample had predicted of the cords it left untested, against what testing them all then showed.
import { proofOf } from './decision/proof.ts'

export type Prediction = {
  sampleSize: number
  /** cords recorded and found not conforming when the prediction stood */
  recorded: number
  found: number
  /** cords that were still to be tested, and how many of them were to be expected not to conform: a 90 % interval, exact */
  rest: number
  lower: number
  upper: number
  /** how many of them did not conform */
  cameOut: number
  covered: boolean
}

/** Two one-sided bounds at 95 % each, the same that the lot's page shows: together 90 %. */
export const predictedConfidence = 0.9

/**
 * @param sample of a lot of `lotSize`, as far as it was recorded when the prediction stood
 * @param foundInAll nonconforming cords once every cord was recorded
 */
export function predictionOf(
  sample: { lotSize: number; sampleSize: number; recorded: number; found: number },
  foundInAll: number,
): Prediction {
  const { sampleSize, recorded, found } = sample
  const { untested, lowerInLot, upperInUntested } = proofOf(sample)
  const [lower, upper] = [lowerInLot - found, upperInUntested]
  const cameOut = foundInAll - found
  return {
    sampleSize,
    recorded,
    found,
    rest: untested,
    lower,
    upper,
    cameOut,
    covered: lower <= cameOut && cameOut <= upper,
  }
}

/** The prediction of a screened lot, from its first decision and its progress now that every cord is recorded. */
export function predictionAfter(
  plan: { lotSize: number; sampleSize: number } | undefined,
  { recorded, found }: { recorded: number; found: number },
  { sampleNonconforming, restNonconforming }: { sampleNonconforming: number; restNonconforming: number },
): Prediction | undefined {
  return plan && predictionOf({ ...plan, recorded, found }, sampleNonconforming + restNonconforming)
}
