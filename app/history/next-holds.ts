// How many nonconforming cords the next lot of a series will hold, from its finished lots, which may differ.
import * as betaBinomial from '../statistics/distributions/beta-binomial.ts'
import type { FinishedLot } from './finished.ts'
import { priorOfFinished } from './series-prior.ts'

/** Cords of a lot of `size`, between the two ends with `confidence`; `lots`: finished ones that it rests on. */
export type NextHolds = { size: number; lower: number; upper: number; mean: number; confidence: number; lots: number }

const confidence = 0.95

/** undefined under five finished lots: of so few nothing is said. The beta-binomial law of the lot's number, two-sided. */
export function nextHolds(finished: readonly FinishedLot[], size: number): NextHolds | undefined {
  const prior = priorOfFinished(finished)
  if (prior.kind === 'too-few') return undefined
  const { a, b, lots } = prior
  const lot = { sampleSize: size, a, b }
  const tail = (1 - confidence) / 2
  return {
    size,
    lower: betaBinomial.quantile(tail, lot),
    upper: betaBinomial.quantile(1 - tail, lot),
    mean: (size * a) / (a + b),
    confidence,
    lots,
  }
}
