// A cumulative sum of measured values, such as margins in dB: sees a drift of the mean before any cord fails.
import { expectedSteps } from '../chain.ts'
import { between, finite } from '../check.ts'
import * as normal from '../distributions/normal.ts'
import { nodesBetween } from '../quadrature.ts'

/**
 * Values until a one-sided sum S = max(0, S + z − reference) of independent normal values signals at S ≥ limit, on average.
 *
 * All in standard deviations. Page's integral equation over S, with a mass at 0, is taken at Gauss points and solved as a chain;
 * about ten digits. Two sums, one for each side, together have 1/(1/L₊ + 1/L₋) where not both can be high at once.
 *
 * @param reference from 0 to 5, half the shift to be seen
 * @param limit above 0, at most 20
 * @param shift of the mean, finite; its sign says towards the limit or away
 * @throws RangeError that names the argument out of range
 *
 * Source: E. S. Page (1954), Biometrika 41, 100–115; D. M. Hawkins and D. H. Olwell (1998) for the solution (from memory).
 *
 * @example normalCusumRunLength({ reference: 0.5, limit: 4, shift: 0 }) // 335.4
 */
export function normalCusumRunLength(cusum: { reference: number; limit: number; shift: number }): number {
  const { reference, limit, shift } = cusum
  between('reference', reference, 0, 5)
  between('limit', limit, Number.MIN_VALUE, 20)
  finite('shift', shift)

  const panels = Math.ceil(limit)
  const points = Array.from({ length: panels }, (_, i) =>
    nodesBetween((limit * i) / panels, (limit * (i + 1)) / panels),
  ).flat()
  const size = points.length + 1
  const step = new Float64Array(size * size)
  const end = new Float64Array(size)
  for (const [i, from] of [0, ...points.map(({ x }) => x)].entries()) {
    const mean = from - reference + shift
    step[i * size] = normal.atMost(-mean)
    for (const [j, { x, weight }] of points.entries()) step[i * size + j + 1] = weight * normal.density(x - mean)
    end[i] = normal.moreThan(limit - mean)
  }
  return expectedSteps({ size, step, end, down: size - 1 })[0]!
}
