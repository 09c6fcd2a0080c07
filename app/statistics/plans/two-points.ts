// The smallest single plan that keeps the producer's and the consumer's risk, whatever the law behind the two chances.
import { exceeds } from '../check.ts'
import { greatestInteger, leastInteger } from '../search.ts'
import { changeOf, type Tail, tailAt } from './tail.ts'

/** The numbers of a single plan. */
export type PlanNumbers = { readonly sampleSize: number; readonly acceptanceNumber: number }

/** Two qualities as a single plan of n units and acceptance number c sees them, and the risk that is tolerated at each. */
export type TwoPoints = {
  readonly producersRisk: number
  readonly consumersRisk: number
  /** The largest sample size there is; it keeps the consumer's risk for every acceptance number in question. */
  readonly most: number
  /** Chance to accept the consumer's quality; falls as n rises, rises with c. */
  readonly acceptance: Tail
  /** Chance to reject the producer's quality; rises with n, falls as c rises. */
  readonly rejection: Tail
  /** About the n that meets the consumer's risk with c, and about the c that meets the producer's with n. */
  guessSampleSize(c: number): number
  guessAcceptanceNumber(n: number): number
}

/** Larger acceptance numbers are not looked for: qualities so close would take sums of millions of terms. */
const mostAccepted = 1e9

/**
 * The smallest sample size for which some acceptance number keeps both risks, and the smallest such number.
 *
 * Let n(c) be the least sample size that keeps the consumer's risk with acceptance number c, and c(n) the least
 * acceptance number that keeps the producer's with sample size n. Both rise, so the steps c → n(c) → c(n), from any c
 * below the smallest plan's, never pass that plan, and where they stand still they have reached it.
 *
 * @throws RangeError where the qualities are so close that more than a thousand million would have to be allowed
 */
export function smallestPlan(points: TwoPoints): PlanNumbers {
  const about = guessed(points)
  if (about > mostAccepted)
    throw new RangeError(`producer and consumer must differ more: the acceptance number would be above ${mostAccepted}`)
  let c = firstNear(points, about)
  let n = leastSampleSize(points, c, points.guessSampleSize(c))
  for (;;) {
    const needed = leastAcceptanceNumber(points, n, c)
    if (needed === c) return { sampleSize: n, acceptanceNumber: c }
    n = leastSampleSize(points, needed, (n * (needed + 1)) / (c + 1))
    c = needed
  }
}

/**
 * An acceptance number below which no plan keeps both risks, near `about`.
 *
 * As real numbers, the sample size that meets the consumer's risk and the one that meets the producer's cross once as c
 * rises: the ratio of the two qualities that a plan can tell apart falls with c (for the Poisson law a ratio of two
 * chi-square quantiles). So where c fails by as much as a tenth of a unit, every smaller c fails.
 * That was checked for every pair of qualities in lots of up to 40 units at ten pairs of risks, and the designs by brute force.
 */
function firstNear(points: TwoPoints, about: number): number {
  let fails = about - 1
  for (let reach = 1; fails >= 0 && near(points, fails); reach *= 2) fails = Math.max(-1, fails - reach)
  let passes = Math.max(about, fails + 1)
  for (let reach = 1; !near(points, passes); reach *= 2) {
    fails = passes
    passes += reach
  }
  return greatestInteger(fails, passes - 1, (c) => !near(points, c)) + 1
}

/** Whether c keeps the producer's risk at the real sample size that meets the consumer's, less a tenth of a unit. */
function near(points: TwoPoints, c: number): boolean {
  const { acceptance, rejection, consumersRisk, producersRisk } = points
  const n = leastSampleSize(points, c, points.guessSampleSize(c))
  const met = tailAt(acceptance, n, c)
  // Between n − 1 and n the logarithm of the acceptance is nearly a straight line.
  const tooMany = met > 0 ? Math.log(consumersRisk / met) / Math.log(tailAt(acceptance, n - 1, c) / met) : 1
  const whole = tailAt(rejection, n, c)
  return !exceeds(whole - (tooMany + 0.1) * (whole - tailAt(rejection, n - 1, c)), producersRisk)
}

/** About the acceptance number of the smallest plan. */
function guessed(points: TwoPoints): number {
  const enough = (c: number) => !(points.guessAcceptanceNumber(points.guessSampleSize(c)) > c + 0.5)
  let reach = 1
  while (!enough(reach)) reach *= 2
  return leastInteger(0, reach, enough)
}

/** Smallest sample size that keeps the consumer's risk: from `about` by Newton's steps on ln(acceptance), always bracketed. */
export function leastSampleSize(
  { acceptance, consumersRisk, most }: Pick<TwoPoints, 'acceptance' | 'consumersRisk' | 'most'>,
  c: number,
  about: number,
): number {
  let short = c
  let enough = most
  let n = Math.round(about)
  for (let turn = 0; enough - short > 1; turn++) {
    if (!(n > short && n < enough) || turn > 20) n = Math.floor((short + enough) / 2)
    const value = tailAt(acceptance, n, c)
    const met = !exceeds(value, consumersRisk)
    if (met) enough = n
    else short = n
    const next = Math.ceil(n + Math.log(consumersRisk / value) / Math.log1p(changeOf(acceptance) / value))
    n = met ? Math.min(next, enough - 1) : Math.max(next, short + 1)
  }
  return enough
}

/** Smallest acceptance number of at least `from` that keeps the producer's risk. */
function leastAcceptanceNumber({ rejection, producersRisk }: TwoPoints, n: number, from: number): number {
  const keeps = (c: number) => !exceeds(tailAt(rejection, n, c), producersRisk)
  let short = from - 1
  let enough = from
  for (let reach = 1; !keeps(enough); reach *= 2) {
    short = enough
    enough += reach
  }
  return leastInteger(short + 1, enough, keeps)
}
