// The smallest single plan that keeps the producer's and the consumer's risk, whatever the law behind the two chances.
import { exceeds } from '../check.ts'
import { greatestInteger } from '../search.ts'

/** The numbers of a single plan. */
export type PlanNumbers = { readonly sampleSize: number; readonly acceptanceNumber: number }

/** Two qualities as a single plan sees them, with the chance of a wrong verdict that is tolerated at each. */
export type TwoPoints = {
  readonly producersRisk: number
  readonly consumersRisk: number
  /** The largest sample size there is; it must keep the consumer's risk for every acceptance number that is asked for. */
  readonly most: number
  /** Chance to accept the consumer's quality; falls in the sample size, rises in the acceptance number. */
  acceptance(plan: PlanNumbers): number
  /** Chance to reject the producer's quality; rises in the sample size, falls in the acceptance number. */
  rejection(plan: PlanNumbers): number
  /** By how much one unit more in the sample lowers `acceptance`. */
  drop(plan: PlanNumbers): number
  /** About the sample size that meets the consumer's risk, and about the acceptance number that meets the producer's. */
  guessSampleSize(acceptanceNumber: number): number
  guessAcceptanceNumber(sampleSize: number): number
}

/** Up to this acceptance number every step is taken; beyond it the search may first leap. */
const steps = 64

/**
 * The smallest sample size for which some acceptance number keeps both risks, and the smallest such number.
 *
 * Of a plan that keeps both risks, let n(c) be the least sample size that keeps the consumer's risk with acceptance
 * number c, and c(n) the least acceptance number that keeps the producer's. Both rise, so from c = 0 the steps
 * c → n(c) → c(n) never pass the smallest plan, and where they stand still they have reached it.
 */
export function smallestPlan(points: TwoPoints): PlanNumbers {
  let acceptanceNumber = 0
  let sampleSize = 0
  let leapt = false
  for (;;) {
    sampleSize = leastSampleSize(points, acceptanceNumber, sampleSize)
    const needed = leastAcceptanceNumber(points, sampleSize, acceptanceNumber)
    if (needed === acceptanceNumber) return { sampleSize, acceptanceNumber }
    acceptanceNumber = needed
    if (acceptanceNumber > steps && !leapt) {
      acceptanceNumber = leap(points, acceptanceNumber)
      leapt = true
    }
  }
}

/**
 * For two qualities close to each other the steps are many and short. Taken as real numbers, the sample sizes that meet
 * the risks exactly cross once as the acceptance number rises (their distance is like A·c − B·√c); below the crossing no
 * plan keeps both. So the search may go on from the first acceptance number that fails by less than one unit.
 */
function leap(points: TwoPoints, from: number): number {
  const nearly = (acceptanceNumber: number) => {
    const sampleSize = leastSampleSize(points, acceptanceNumber, 0) - 1
    return !exceeds(points.rejection({ sampleSize, acceptanceNumber }), points.producersRisk)
  }
  if (nearly(from)) return from
  let reach = from
  while (!nearly(from + reach)) reach *= 2
  return greatestInteger(from, from + reach - 1, (value) => !nearly(value)) + 1
}

/** Smallest sample size above `beyond` − 1 that keeps the consumer's risk: Newton's steps on ln(acceptance), always bracketed. */
function leastSampleSize(points: TwoPoints, acceptanceNumber: number, beyond: number): number {
  const { consumersRisk, most } = points
  let short = Math.max(acceptanceNumber, beyond - 1)
  let enough = most
  let sampleSize = Math.round(points.guessSampleSize(acceptanceNumber))
  for (let turn = 0; enough - short > 1; turn++) {
    if (!(sampleSize > short && sampleSize < enough) || turn > 20) sampleSize = Math.floor((short + enough) / 2)
    const plan = { sampleSize, acceptanceNumber }
    const acceptance = points.acceptance(plan)
    const met = !exceeds(acceptance, consumersRisk)
    if (met) enough = sampleSize
    else short = sampleSize
    const distance = Math.log(consumersRisk / acceptance) / Math.log1p(-points.drop(plan) / acceptance)
    const next = Math.ceil(sampleSize + distance)
    sampleSize = met ? Math.min(next, enough - 1) : Math.max(next, short + 1)
  }
  return enough
}

/** Smallest acceptance number of at least `from` that keeps the producer's risk. */
function leastAcceptanceNumber(points: TwoPoints, sampleSize: number, from: number): number {
  const keeps = (acceptanceNumber: number) =>
    !exceeds(points.rejection({ sampleSize, acceptanceNumber }), points.producersRisk)
  if (keeps(from)) return from
  let short = from
  let enough = Math.max(from + 1, Math.round(points.guessAcceptanceNumber(sampleSize)))
  for (let reach = 1; !keeps(enough); reach *= 2) {
    short = enough
    enough += reach
  }
  for (let reach = 1; enough - short > 1; reach *= 2) {
    const middle = Math.max(enough - reach, Math.floor((short + enough) / 2))
    if (keeps(middle)) enough = middle
    else short = middle
  }
  return enough
}
