// The two-sided interval on a fraction by the method the reader names.
import { clopperPearsonInterval, type Interval, type SampleEvidence } from './fraction.ts'
import { jeffreysInterval } from './jeffreys.ts'
import { midPInterval } from './mid-p.ts'
import { wilsonInterval } from './wilson.ts'

/** Ways to put an interval around a fraction; only Clopper–Pearson never covers less than it says. */
export const intervalMethods = ['clopper-pearson', 'mid-p', 'wilson', 'jeffreys'] as const

/** One of {@link intervalMethods}. */
export type IntervalMethod = (typeof intervalMethods)[number]

/**
 * Two-sided interval on the fraction nonconforming: the confidence is shared by both sides.
 *
 * @param method how; see the file of each for what it promises
 * @param evidence sampleSize n ≥ 0, found 0 ≤ d ≤ n, 0 < confidence < 1
 * @returns `lower` is 0 at d = 0 and `upper` 1 at d = n, whatever the method
 * @throws RangeError that names the argument out of range, a method that is none among them
 *
 * @example intervalOfFraction('clopper-pearson', { sampleSize: 80, found: 2, confidence: 0.95 }) // 0.0030 to 0.0874
 */
export function intervalOfFraction(method: IntervalMethod, evidence: SampleEvidence): Interval {
  switch (method) {
    case 'clopper-pearson':
      return clopperPearsonInterval(evidence)
    case 'mid-p':
      return midPInterval(evidence)
    case 'wilson':
      return wilsonInterval(evidence)
    case 'jeffreys':
      return jeffreysInterval(evidence)
    default:
      throw new RangeError(`method must be one of ${intervalMethods.join(', ')}, not ${method satisfies never}`)
  }
}
