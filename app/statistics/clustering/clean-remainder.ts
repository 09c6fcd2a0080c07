// What a clean sample says of the rest when units of a lot resemble each other, from independent to all alike.
import { count, probability } from '../check.ts'

/** A lot in which a fraction is nonconforming on average, and the correlation between any two of its units. */
export type ClusteredLot = { lotSize: number; sampleSize: number; fraction: number; correlation: number }

/**
 * Chance that all untested units conform, given that all tested ones did.
 *
 * The units are exchangeable: each lot has a fraction of its own from a beta distribution with mean p, and any two of
 * its units have correlation ρ. At ρ = 0 each unit stands or falls by itself and the sample says nothing of the rest:
 * (1 − p)^(N − n). At ρ = 1 the lot is of one piece (a spool), and one conforming unit vouches for all.
 *
 * Formula: with a = p(1 − ρ)/ρ and b = (1 − p)(1 − ρ)/ρ the product of (b + i)/(a + b + i) over i = n … N − 1, taken
 * in the form 1 − p(1 − ρ)/(1 − ρ + iρ), which has no large numbers at ρ near 0.
 *
 * @param lotSize units in the lot, 1 ≤ N ≤ 10,000,000
 * @param sampleSize units tested and all conforming, 0 ≤ n ≤ N; at 0 nothing is given
 * @param fraction mean fraction nonconforming p, 0 to 1; at 1 the limit from below
 * @param correlation correlation between two units ρ, 0 to 1
 * @returns a probability; 1 where nothing is left untested
 * @throws RangeError that names the argument out of range
 *
 * Source: J. G. Skellam (1948), J. R. Statist. Soc. B 10, 257–261 (the beta-binomial law); ρ = 1/(a + b + 1).
 *
 * @example cleanRemainder({ lotSize: 480, sampleSize: 48, fraction: 0.02, correlation: 0 }) // 0.000162: 2 in 10,000
 */
export function cleanRemainder({ lotSize, sampleSize, fraction, correlation }: ClusteredLot): number {
  count('lotSize', lotSize, 1, 10_000_000)
  count('sampleSize', sampleSize, 0, lotSize)
  probability('fraction', fraction)
  probability('correlation', correlation)

  const untested = lotSize - sampleSize
  if (untested === 0 || fraction === 0) return 1
  if (correlation === 1) return sampleSize === 0 ? 1 - fraction : 1
  if (correlation === 0) return Math.exp(untested * Math.log1p(-fraction))
  return Math.exp(logOfClean({ lotSize, sampleSize, fraction, correlation }))
}

/** Logarithm of the product, summed with the rounding of each step carried on (Kahan), as there may be ten million. */
function logOfClean({ lotSize, sampleSize, fraction, correlation }: ClusteredLot): number {
  const spread = 1 - correlation
  let total = 0
  let lost = 0
  for (let unit = sampleSize; unit < lotSize && total > -800; unit++) {
    const weight = spread + unit * correlation
    const share = (fraction * spread) / weight
    const term = share < 0.5 ? Math.log1p(-share) : Math.log(((1 - fraction) * spread + unit * correlation) / weight)
    const step = term - lost
    const next = total + step
    lost = next - total - step
    total = next
  }
  return total
}
