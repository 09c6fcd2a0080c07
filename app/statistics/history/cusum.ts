// A cumulative sum of nonconforming units: sees a small lasting rise sooner than limits on single lots do.
import { expectedSteps } from '../chain.ts'
import { count, probability } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import { leastInteger } from '../search.ts'
import type { LotResult } from './lots.ts'

/**
 * S = max(0, S + found − reference), with a signal at S ≥ limit. All is kept in whole steps of 1/steps of a unit, so that no
 * rounding decides: found counts `steps` each, `reference` is taken off after `sampleSize` units, `limit` signals.
 */
export type Cusum = {
  readonly sampleSize: number
  readonly steps: number
  readonly reference: number
  readonly limit: number
}

/** A cumulative sum with its run lengths, in samples of its sample size. */
export type DesignedCusum = {
  readonly cusum: Cusum
  /** Samples until a false alarm, on average, at the acceptable fraction. */
  readonly inControl: number
  /** Samples until the signal, on average, at the fraction to be seen. */
  readonly outOfControl: number
}

/** Largest limit in steps: the chain has one state a step. */
const mostSteps = 3000

/** Every count of a sample is a way through the chain. */
const largestSample = 100_000

/**
 * The fraction found at which the sum neither rises nor falls: between the acceptable fraction and the one to be seen,
 * where a unit speaks for neither.
 *
 * @throws RangeError unless 0 < acceptable < rejectable < 1
 *
 * Source: M. R. Reynolds and Z. G. Stoumbos (1999), Journal of Quality Technology 31, 87–108: r₁ ÷ r₂ (from memory).
 *
 * @example referenceFraction({ acceptable: 0.01, rejectable: 0.02 }) // 0.014435: 1 in 69.27
 */
export function referenceFraction({ acceptable, rejectable }: { acceptable: number; rejectable: number }): number {
  if (!(acceptable > 0 && acceptable < 1))
    throw new RangeError(`acceptable must be above 0 and below 1, not ${acceptable}`)
  if (!(rejectable > acceptable && rejectable < 1))
    throw new RangeError(`rejectable must be above acceptable (${acceptable}) and below 1, not ${rejectable}`)

  const conforming = Math.log1p(-acceptable) - Math.log1p(-rejectable)
  return conforming / (Math.log(rejectable / acceptable) + conforming)
}

/**
 * Samples until the sum signals, on average, at a steady fraction: exact, by the chain over the steps of the sum.
 *
 * @param cusum sampleSize from 1 (unit by unit) to 100,000, steps at least 1, reference at least 1, limit from 1 to 3,000 steps
 * @param fraction nonconforming of the process, 0 to 1
 * @param start where the sum begins, in steps, below the limit; above 0 it is a head start
 * @returns Infinity where it never signals
 * @throws RangeError that names the argument out of range
 *
 * Source: the Markov chain of D. Brook and D. A. Evans (1972), Biometrika 59, 539–549 (from memory), exact on a lattice.
 *
 * @example cusumRunLength({ sampleSize: 1, steps: 50, reference: 1, limit: 100 }, { fraction: 0.01 }) // 1345.1 units
 */
export function cusumRunLength(cusum: Cusum, { fraction, start = 0 }: { fraction: number; start?: number }): number {
  const { sampleSize, steps, reference, limit } = cusum
  checkCusum(cusum)
  probability('fraction', fraction)
  count('start', start, 0, limit - 1)

  const step = new Float64Array(limit * limit)
  const end = new Float64Array(limit)
  const most = Math.min(sampleSize, Math.floor((limit - 1 + reference) / steps))
  const chances = Array.from({ length: most + 1 }, (_, found) => binomial.density(found, { sampleSize, fraction }))
  for (let sum = 0; sum < limit; sum++) {
    const stays = Math.min(sampleSize, Math.floor((limit - 1 - sum + reference) / steps))
    for (let found = 0; found <= stays; found++)
      step[sum * limit + Math.max(0, sum + found * steps - reference)]! += chances[found]!
    end[sum] = binomial.moreThan(stays, { sampleSize, fraction })
  }
  return expectedSteps({ size: limit, step, end, down: reference })[start]!
}

/**
 * A cumulative sum with a designed run length: reference between the two fractions, and the smallest limit with which false
 * alarms are at least so rare.
 *
 * Unit by unit (sampleSize 1) the reference is 1 unit in a whole number m of units, in steps of 1/m; for lots it is rounded to
 * a quarter of a unit.
 *
 * @param sampleSize units tested in each lot, from 1 to 100,000
 * @param acceptable, rejectable fractions nonconforming, 0 < acceptable < rejectable < 1
 * @param runLength samples until a false alarm, on average, at least 1
 * @throws RangeError that names the argument out of range, or a run length that no limit of 3,000 steps has
 *
 * @example designCusum({ sampleSize: 80, acceptable: 0.01, rejectable: 0.03, runLength: 300 })
 *   // with 4 steps a unit reference 6 and limit 15, a false alarm in 481 lots, a rise seen after 5.0: to 3 %
 */
export function designCusum(requirements: {
  readonly sampleSize: number
  readonly acceptable: number
  readonly rejectable: number
  readonly runLength: number
}): DesignedCusum {
  const { sampleSize, acceptable, rejectable, runLength } = requirements
  count('sampleSize', sampleSize, 1, largestSample)
  const fraction = referenceFraction({ acceptable, rejectable })
  if (!(runLength >= 1 && runLength < Number.POSITIVE_INFINITY))
    throw new RangeError(`runLength must be at least 1 and finite, not ${runLength}`)

  const steps = sampleSize === 1 ? Math.max(2, Math.round(1 / fraction)) : 4
  const reference = sampleSize === 1 ? 1 : Math.max(1, Math.round(4 * sampleSize * fraction))
  const at = (limit: number): Cusum => ({ sampleSize, steps, reference, limit })
  const reaches = (limit: number) => cusumRunLength(at(limit), { fraction: acceptable }) >= runLength
  let most = steps
  while (!reaches(most)) {
    if (most === mostSteps)
      throw new RangeError(`runLength must be one that ${mostSteps} steps reach, and ${runLength} is not`)
    most = Math.min(mostSteps, 2 * most)
  }
  const cusum = at(leastInteger(1, most, reaches))
  return {
    cusum,
    inControl: cusumRunLength(cusum, { fraction: acceptable }),
    outOfControl: cusumRunLength(cusum, { fraction: rejectable }),
  }
}

/**
 * The sum after each lot, in units, and whether it signals there; after a signal it begins again at 0. A lot of another size than
 * the design's takes off its share of the reference: the run lengths then hold about, not exactly.
 *
 * @throws RangeError that names the argument out of range
 */
export function cusumPath(
  lots: readonly LotResult[],
  cusum: Cusum,
): { readonly sum: number; readonly signals: boolean }[] {
  checkCusum(cusum)

  let sum = 0
  return lots.map(({ sampleSize, found }, index) => {
    count(`lots[${index}].sampleSize`, sampleSize)
    count(`lots[${index}].found`, found, 0, sampleSize)
    sum = Math.max(0, sum + found * cusum.steps - cusum.reference * (sampleSize / cusum.sampleSize))
    const point = { sum: sum / cusum.steps, signals: sum >= cusum.limit }
    if (point.signals) sum = 0
    return point
  })
}

function checkCusum({ sampleSize, steps, reference, limit }: Cusum): void {
  count('cusum.sampleSize', sampleSize, 1, largestSample)
  count('cusum.steps', steps, 1)
  count('cusum.reference', reference, 1)
  count('cusum.limit', limit, 1, mostSteps)
}
