// Which method margins allow: by variables where they look normal, else the law of minima or the bare count.
import { openProbability } from '../check.ts'
import { fractionBelowByMinima, type MinimaFraction } from './minima.ts'
import { type AndersonDarling, andersonDarling, leastForNormality, momentsOf } from './normality.ts'

/** What a set of margins may be judged by, and why. */
export type Suitable =
  | { method: 'count'; reason: 'too few'; needed: number }
  | { method: 'count'; reason: 'all equal' }
  | { method: 'count'; reason: 'neither normal nor minima'; normality: AndersonDarling; skewness: number }
  | { method: 'variables'; normality: AndersonDarling }
  | { method: 'minima'; normality: AndersonDarling; skewness: number; fraction: MinimaFraction }

/** A p-value below this refuses a law: one sample in twenty that follows it is refused too. */
export const refusalLevel = 0.05

/** Margins, the limit they are judged against (dB), and the confidence of the one-sided bounds. */
export type MarginSample = { margins: readonly number[]; limit: number; confidence: number }

/**
 * The method that a set of margins allows. The method by variables is refused, not adjusted, where the margins are
 * clearly not normal: its bounds look at the far tail, where a wrong law is wrong by multiples.
 *
 * Worst margins are minima over pairs and frequencies and often have a long tail to the left; then the extreme-value law
 * is offered with its own bounds, if it fits. Otherwise the cords are counted.
 *
 * @param margins up to 20,000 margins from −1e9 to 1e9 dB, of one population (one supplier, item and tester)
 * @param limit −1e9 to 1e9 dB
 * @param confidence 0 < confidence < 1, used where the law of minima is offered
 * @throws RangeError that names what is wrong
 */
export function suitableMethod({ margins, limit, confidence }: MarginSample): Suitable {
  openProbability('confidence', confidence)
  if (margins.length < leastForNormality) return { method: 'count', reason: 'too few', needed: leastForNormality }
  if (margins.every((margin) => margin === margins[0])) return { method: 'count', reason: 'all equal' }

  const normality = andersonDarling(margins)
  if (normality.pValue >= refusalLevel) return { method: 'variables', normality }
  const { skewness } = momentsOf(margins)
  const fraction = fractionBelowByMinima({ values: margins, limit, confidence })
  if (fraction.pValue >= refusalLevel) return { method: 'minima', normality, skewness, fraction }
  return { method: 'count', reason: 'neither normal nor minima', normality, skewness }
}
