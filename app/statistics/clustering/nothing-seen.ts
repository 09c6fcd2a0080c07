// The chance that a sample shows nothing although cartons differ, by the way the sample is taken.
import { count, probability } from '../check.ts'
import { density } from '../distributions/hypergeometric.ts'
import { cleanRemainder } from './clean-remainder.ts'

/** A carton and how many of its cords do not conform. */
export type Carton = { cords: number; nonconforming: number }

/** Chances to find nothing, by three ways to take as many cords. */
export type NothingSeen = {
  /** Cords drawn at random from the whole lot. */
  random: number
  /** The same number from every carton, as near as it goes: drawn at random inside each. */
  stratified: number
  /** From a few cartons opened for convenience, cartons and cords inside them at random. */
  convenient: number
  /** That no carton holding a nonconforming cord is opened at all in the convenient way. */
  noneOpened: number
}

/** Cartons of a lot; `opened` of them are opened for convenience, and `each` cords taken from each of these. */
export type Convenience = { cartons: readonly Carton[]; opened: number; each: number }

/**
 * Chance to see nothing when opened × each cords are tested, taken conveniently, from every carton, or at random.
 *
 * For the stratified way the cords are dealt to the cartons in turn, those that get one more being chosen at random.
 *
 * @param cartons at most 10,000; cords in each (at least 1) and how many do not conform
 * @param opened cartons opened for convenience, 1 to all
 * @param each cords taken from each opened one, at most what the smallest carton holds
 * @returns four probabilities, exact
 * @throws RangeError that names the argument out of range
 *
 * @example nothingSeen({ cartons: Array.from({ length: 20 }, (_, at) => ({ cords: 50, nonconforming: at < 2 ? 25 : 0 })), opened: 2, each: 40 })
 *   // 80.5 % see nothing, at random 1.4 %, from each carton 0.3 %
 */
export function nothingSeen({ cartons, opened, each }: Convenience): NothingSeen {
  const { smallest, lotSize, nonconforming } = checked(cartons)
  count('opened', opened, 1, cartons.length)
  count('each', each, 0, smallest)
  const sampleSize = opened * each
  const dealt = Math.floor(sampleSize / cartons.length)
  const extra = sampleSize - dealt * cartons.length

  const clean = (units: number) => cartons.map(({ cords, nonconforming }) => noneOf(cords, nonconforming, units))
  return {
    random: noneOf(lotSize, nonconforming, sampleSize),
    stratified: meanOfProducts(clean(dealt), extra === 0 ? clean(dealt) : clean(dealt + 1), extra),
    convenient: meanOfProducts(
      cartons.map(() => 1),
      clean(each),
      opened,
    ),
    noneOpened: noneOf(cartons.length, cartons.filter((carton) => carton.nonconforming > 0).length, opened),
  }
}

/** Cartons of a supplier whose fractions differ: the correlation between two cords of one carton. */
export type DifferingCartons = { fraction: number; correlation: number; opened: number; each: number }

/**
 * Chance to see nothing in `each` cords of each of `opened` cartons when the cartons' fractions differ by a beta law.
 *
 * The more cords come from one carton, the likelier it is that nothing is seen; one from each is as good as random.
 *
 * @param fraction mean fraction nonconforming, 0 to 1
 * @param correlation correlation between two cords of one carton, 0 to 1
 * @param opened cartons, at least 1
 * @param each cords of each, 0 to 10,000,000
 * @throws RangeError that names the argument out of range
 *
 * @example nothingSeenByCorrelation({ fraction: 0.05, correlation: 0.4, opened: 2, each: 40 }) // 0.573: at random 0.017
 */
export function nothingSeenByCorrelation({ fraction, correlation, opened, each }: DifferingCartons): number {
  probability('fraction', fraction)
  probability('correlation', correlation)
  count('opened', opened, 1)
  count('each', each, 0, 10_000_000)

  if (each === 0) return 1
  return cleanRemainder({ lotSize: each, sampleSize: 0, fraction, correlation }) ** opened
}

function checked(cartons: readonly Carton[]) {
  count('cartons.length', cartons.length, 1, 10_000)
  let lotSize = 0
  let nonconforming = 0
  let smallest = Number.POSITIVE_INFINITY
  for (const [index, carton] of cartons.entries()) {
    count(`cartons[${index}].cords`, carton.cords, 1)
    count(`cartons[${index}].nonconforming`, carton.nonconforming, 0, carton.cords)
    lotSize += carton.cords
    nonconforming += carton.nonconforming
    smallest = Math.min(smallest, carton.cords)
  }
  return { lotSize, nonconforming, smallest }
}

function noneOf(lotSize: number, nonconforming: number, sampleSize: number): number {
  return density(0, { lotSize, nonconforming, sampleSize })
}

/**
 * Mean, over all choices of `chosen` places, of the product of `inside` at the chosen and `outside` at the other places.
 *
 * Place by place: of the choices of j among the first i places a share j/i has place i in it; all terms are positive.
 */
function meanOfProducts(outside: readonly number[], inside: readonly number[], chosen: number): number {
  let means = [1]
  for (let i = 1; i <= inside.length; i++) {
    const next: number[] = []
    for (let j = Math.max(0, chosen - (inside.length - i)); j <= Math.min(i, chosen); j++) {
      const taken = j > 0 ? (j / i) * (means[j - 1] ?? 0) * (inside[i - 1] ?? 0) : 0
      const left = j < i ? ((i - j) / i) * (means[j] ?? 0) * (outside[i - 1] ?? 0) : 0
      next[j] = taken + left
    }
    means = next
  }
  return means[chosen] ?? 0
}
