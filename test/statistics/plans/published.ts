// Plans that the tests of several measures share, each with its source.
import type { Stage } from './orders.ts'

/** Stages from rows of cumulative sample size, acceptance number and rejection number. */
export function stagesOf(...rows: (readonly [number, number, number])[]): { stages: Stage[] } {
  const stages = rows.map(([sampleSize, acceptanceNumber, rejectionNumber]) => ({
    sampleSize,
    acceptanceNumber,
    rejectionNumber,
  }))
  return { stages }
}

export const single = (sampleSize: number, acceptanceNumber: number) =>
  stagesOf([sampleSize, acceptanceNumber, acceptanceNumber + 1])

/** 46 CFR 160.066-12 (US Coast Guard), lot of 281 to 500: seven samples of 13. */
export const sevenOfThirteen = stagesOf(
  [13, -1, 4],
  [26, 1, 6],
  [39, 3, 8],
  [52, 5, 10],
  [65, 7, 11],
  [78, 10, 12],
  [91, 13, 14],
)

/** Montgomery's double plan, from memory: 50 (1), 100 more (3). */
export const fiftyHundred = stagesOf([50, 1, 4], [150, 3, 4])
