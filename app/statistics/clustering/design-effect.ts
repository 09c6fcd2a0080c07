// How many independent cords a clustered sample is worth.
import { count, probability } from '../check.ts'

/** Units taken from each pack (carton, spool, shift), and the correlation between any two units of one pack. */
export type ClusteredSample = { unitsOfPacks: readonly number[]; correlation: number }

/**
 * Design effect: how many times larger the variance of the found fraction is than that of as many independent units.
 *
 * 1 + (m − 1)ρ for m units of each pack; where packs give different numbers m is Σm² ÷ Σm.
 *
 * @param unitsOfPacks units taken from each pack, whole numbers of at least 1
 * @param correlation correlation within packs, 0 to 1
 * @returns 1 for independent units, up to m
 * @throws RangeError that names the argument out of range
 *
 * Source: L. Kish (1965), Survey Sampling, section 5.4 (from memory).
 *
 * @example designEffect({ unitsOfPacks: Array(10).fill(10), correlation: 0.3 }) // 3.7
 */
export function designEffect({ unitsOfPacks, correlation }: ClusteredSample): number {
  count('unitsOfPacks.length', unitsOfPacks.length, 1)
  for (const [pack, units] of unitsOfPacks.entries()) count(`unitsOfPacks[${pack}]`, units, 1)
  probability('correlation', correlation)

  const squares = unitsOfPacks.reduce((sum, units) => sum + units * units, 0)
  return 1 + (squares / total(unitsOfPacks) - 1) * correlation
}

/**
 * Number of independent units that say as much about the fraction as the clustered sample does.
 *
 * @returns units, not necessarily whole; all of them at ρ = 0, the number of equal packs at ρ = 1
 * @throws RangeError that names the argument out of range
 *
 * @example effectiveSampleSize({ unitsOfPacks: Array(10).fill(10), correlation: 0.3 }) // 27.0: as many as of 100
 */
export function effectiveSampleSize(sample: ClusteredSample): number {
  return total(sample.unitsOfPacks) / designEffect(sample)
}

function total(units: readonly number[]): number {
  return units.reduce((sum, each) => sum + each, 0)
}
