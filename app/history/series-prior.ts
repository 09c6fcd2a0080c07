// What is believed of the next lot of a supplier's item before a cord of it is tested: from its own finished lots alone.
import { type NextLotPrior, priorOfNextLot } from '../statistics/history/next-lot.ts'
import type { FinishedLot } from './finished.ts'

/** With fewer lots how they differ rests on chance (common practice, no source). */
export const fewestLots = 5

export type SeriesPrior =
  | { kind: 'too-few'; lots: number }
  /** a beta distribution of the lot's fraction nonconforming */
  | ({ kind: 'fitted'; lots: number } & NextLotPrior)

/** @param lots finished lots of one item from one supplier */
export function priorOfFinished(lots: readonly Pick<FinishedLot, 'tested' | 'found'>[]): SeriesPrior {
  if (lots.length < fewestLots) return { kind: 'too-few', lots: lots.length }
  const results = lots.map(({ tested, found }) => ({ sampleSize: tested, found }))
  return { kind: 'fitted', lots: lots.length, ...priorOfNextLot(results) }
}
