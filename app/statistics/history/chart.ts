// Control charts of lots: the usual limits at so many sigmas, and limits at an exact tail probability.
import { between, count, exceeds, openProbability, probability } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import { leastInteger } from '../search.ts'

/**
 * Limits of a p-chart, p ± sigmas·√(p(1 − p)/n), cut to [0, 1]. A lot signals strictly outside them.
 *
 * At suppliers' usual fractions the binomial is so skew that three sigmas alarm several times as often as 1 in 370:
 * see `exactChartLimits`.
 *
 * @param fraction of the process in control, 0 to 1
 * @param sampleSize units tested of a lot, at least 1
 * @param sigmas above 0, usually 3
 * @throws RangeError that names the argument out of range
 *
 * Source: NIST/SEMATECH e-Handbook 6.3.3.2.
 *
 * @example pChartLimits({ fraction: 0.02, sampleSize: 80, sigmas: 3 }) // { lower: 0, upper: 0.067 }
 */
export function pChartLimits(chart: { fraction: number; sampleSize: number; sigmas: number }): Limits {
  const { fraction, sampleSize, sigmas } = chart
  probability('fraction', fraction)
  count('sampleSize', sampleSize, 1)
  between('sigmas', sigmas, Number.MIN_VALUE, Number.MAX_VALUE)

  const width = sigmas * Math.sqrt((fraction * (1 - fraction)) / sampleSize)
  return { lower: Math.max(0, fraction - width), upper: Math.min(1, fraction + width) }
}

/** Two limits, of fractions or of counts; what lies strictly outside them signals. */
export type Limits = { readonly lower: number; readonly upper: number }

/** The counts that a p-chart takes without a signal; a count on a limit, up to rounding, is inside. Arguments as for `pChartLimits`. */
export function pChartCounts(chart: { fraction: number; sampleSize: number; sigmas: number }): Limits {
  const { lower, upper } = pChartLimits(chart)
  const margin = 1e-9
  return { lower: Math.ceil(lower * chart.sampleSize - margin), upper: Math.floor(upper * chart.sampleSize + margin) }
}

/**
 * Limits of a chart of counts at an exact tail probability: the smallest `upper` that is exceeded with at most that probability,
 * and the smallest `lower` of which the counts up to it have more. A lot signals with a count above `upper` or below `lower`.
 *
 * @param fraction of the process in control, 0 to 1
 * @param sampleSize units tested of a lot, 0 to 1,000,000,000,000
 * @param tailProbability of a false alarm on each side, in (0, 1), usually 0.00135; equality counts as met
 * @throws RangeError that names the argument out of range
 * @example exactChartLimits({ fraction: 0.02, sampleSize: 80, tailProbability: 0.00135 }) // { lower: 0, upper: 6 }
 */
export function exactChartLimits(chart: { fraction: number; sampleSize: number; tailProbability: number }): Limits {
  const { fraction, sampleSize, tailProbability } = chart
  probability('fraction', fraction)
  count('sampleSize', sampleSize, 0, 1_000_000_000_000)
  openProbability('tailProbability', tailProbability)

  const trials = { sampleSize, fraction }
  return {
    lower: leastInteger(0, sampleSize, (found) => exceeds(binomial.atMost(found, trials), tailProbability)),
    upper: leastInteger(0, sampleSize, (found) => !exceeds(binomial.moreThan(found, trials), tailProbability)),
  }
}

/** What a lot's count says against limits of counts. */
export type Signal = 'above' | 'below' | 'none'

export function signalOf(found: number, { lower, upper }: Limits): Signal {
  if (found > upper) return 'above'
  return found < lower ? 'below' : 'none'
}

/**
 * Lots until a chart signals, on average, at a steady fraction: with the fraction in control how rare false alarms are, with
 * another how soon a change is seen. Infinity where no count is outside the limits.
 *
 * @param limits of counts
 * @throws RangeError that names the argument out of range
 */
export function chartRunLength(limits: Limits, process: { sampleSize: number; fraction: number }): number {
  count('limits.lower', limits.lower)
  count('limits.upper', limits.upper)

  return 1 / (binomial.atMost(limits.lower - 1, process) + binomial.moreThan(limits.upper, process))
}
