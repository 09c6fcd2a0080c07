// What was said of the cords nobody had tested, beside what they showed.
import { describe, expect, test } from 'vitest'
import { predictionOf } from '../../../app/lots/rules/prediction.ts'

const plan = {
  lotSize: 480,
  sampleSize: 50,
  stages: [{ sampleSize: 50, acceptanceNumber: 1, rejectionNumber: 2 }],
}

describe('a prediction', () => {
  // Recomputed in exact fractions: one in 50 of 480 leaves up to 42 in the lot, so 41 among the 430 others.
  test.each([
    { foundInAll: 1, observed: 0, covered: true, why: 'the fewest that it allows' },
    { foundInAll: 42, observed: 41, covered: true, why: 'the most that it allows' },
    { foundInAll: 43, observed: 42, covered: false, why: 'one more' },
  ])('of 0 to 41 is met by $observed: $covered, $why', ({ foundInAll, observed, covered }) => {
    expect(predictionOf(plan, { recorded: 50, found: 1 }, foundInAll)).toEqual({
      sampleSize: 50,
      recorded: 50,
      found: 1,
      remainder: 430,
      lower: 0,
      upper: 41,
      observed,
      covered,
    })
  })

  // Exact fractions, as `lowerBoundInLot`: 3 of 12 of 60 need 6 in the lot, so 3 among the others.
  test.each([
    { foundInAll: 6, covered: true },
    { foundInAll: 5, covered: false },
  ])('of at least 3 among the others: $foundInAll in all, $covered', ({ foundInAll, covered }) => {
    const stages = [{ sampleSize: 12, acceptanceNumber: 2, rejectionNumber: 3 }]
    const said = predictionOf({ lotSize: 60, sampleSize: 12, stages }, { recorded: 12, found: 3 }, foundInAll)
    expect(said).toMatchObject({ lower: 3, covered })
  })
})
