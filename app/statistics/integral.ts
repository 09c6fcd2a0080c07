// Integral of a density with one peak, exact to the digits of the density, however far out the peak lies.
import { rootBetween } from './root.ts'

/** The logarithm of a log-concave density, its slope, and the range it is integrated over. */
export type LogConcave = {
  logDensity: (x: number) => number
  slope: (x: number) => number
  from: number
  to: number
  /** A length that is small against the width of the peak or of any step in the density. */
  step: number
}

/** What is left out beyond exp(−reach) of the peak is below the last digit of the whole. */
const reach = 45

/**
 * Natural logarithm of ∫ exp(logDensity) over [from, to], either end possibly infinite; relative error about 1e-13.
 *
 * The peak is found first and divided out, so nothing underflows; then halving intervals until 15 and 7 nodes agree.
 *
 * @throws RangeError never; −Infinity where the density is 0 throughout
 *
 * Source: Gauss–Kronrod rule of 7 and 15 nodes, nodes as in QUADPACK (R. Piessens et al., 1983), from memory and checked.
 */
export function logIntegral({ logDensity, slope, from, to, step }: LogConcave): number {
  const peak = peakOf(slope, from, to, step)
  const height = logDensity(peak)
  if (height === Number.NEGATIVE_INFINITY) return height
  const left = peak - edge(logDensity, peak, height, -step, from)
  const right = edge(logDensity, peak, height, step, to) - peak
  const leftwards = (distance: number) => Math.exp(logDensity(peak - distance) - height)
  const rightwards = (distance: number) => Math.exp(logDensity(peak + distance) - height)
  const area = adaptive(leftwards, left) + adaptive(rightwards, right)
  return height + Math.log(area)
}

/** Where the slope changes sign, or the end it points to. */
function peakOf(slope: (x: number) => number, from: number, to: number, step: number): number {
  const start = Number.isFinite(to) ? to : Number.isFinite(from) ? from : 0
  const outward = slope(start) > 0 ? 1 : -1
  const end = outward > 0 ? to : from
  if (start === end) return start
  let inner = start
  for (let width = step; width < 1e300; width *= 2) {
    const outer = outward > 0 ? Math.min(end, start + width) : Math.max(end, start - width)
    if (Math.sign(slope(outer)) !== outward) return rootBetween(inner, outer, slope)
    if (outer === end) return end
    inner = outer
  }
  return inner
}

/** Where the density has fallen to nothing on one side of its peak. */
function edge(logDensity: (x: number) => number, peak: number, height: number, step: number, end: number): number {
  const stop = (x: number) => (step < 0 ? Math.max(x, end) : Math.min(x, end))
  let width = step
  while (Math.abs(width) < 1e300 && stop(peak + width) !== end && logDensity(peak + width) > height - reach) width *= 2
  return stop(peak + width)
}

/**
 * Halves every interval in which the two rules differ, at most 2,000 of them; from the peak at 0 outwards, so that
 * what lies far out need only be known against what is there already.
 */
function adaptive(density: (x: number) => number, to: number): number {
  if (!(to > 0)) return 0
  const open: [number, number][] = [[0, to]]
  let known = 0
  for (let intervals = 0; open.length > 0 && intervals < 2000; intervals++) {
    const [a, b] = open.pop()! // open is not empty
    const { fine, coarse } = gaussKronrod(density, a, b)
    const middle = (a + b) / 2
    if (Math.abs(fine - coarse) <= 1e-13 * (known + fine) || !(a < middle && middle < b)) known += fine
    else open.push([middle, b], [a, middle])
  }
  return known
}

function gaussKronrod(density: (x: number) => number, a: number, b: number): { fine: number; coarse: number } {
  const centre = (a + b) / 2
  const half = (b - a) / 2
  const middle = density(centre)
  let fine = middle * 0.20948214108472782
  let coarse = middle * 0.4179591836734694
  for (const [node, weight, gauss] of nodes) {
    const both = density(centre - half * node) + density(centre + half * node)
    fine += both * weight
    coarse += both * gauss
  }
  return { fine: fine * half, coarse: coarse * half }
}

/** Node, its weight among 15, its weight among 7 (0 where it is none of those). */
const nodes = [
  [0.9914553711208126, 0.022935322010529224, 0],
  [0.9491079123427585, 0.06309209262997856, 0.1294849661688697],
  [0.8648644233597691, 0.10479001032225017, 0],
  [0.7415311855993945, 0.14065325971552592, 0.27970539148927664],
  [0.5860872354676911, 0.1690047266392679, 0],
  [0.4058451513773972, 0.19035057806478542, 0.3818300505051189],
  [0.20778495500789848, 0.20443294007529889, 0],
] as const
