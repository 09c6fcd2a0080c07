// The same percentage on sections of one spool and on cords: what a clean sample says of the rest.
import { cleanRemainder } from '../../statistics/clustering/clean-remainder.ts'

/** Chances that the untested rest is clean, given a clean sample of `sampleSize` of `lotSize`. */
export type SpoolComparison = { lotSize: number; sampleSize: number; alike: number; oneByOne: number }

/**
 * Compares sections that stand or fall together (correlation 1) with cords that fail one by one (correlation 0).
 * `fraction` is the share that does not conform on average, 0 to 1.
 */
export function spoolComparison(lotSize: number, sampleSize: number, fraction: number): SpoolComparison {
  const remainder = (correlation: number) => cleanRemainder({ lotSize, sampleSize, fraction, correlation })
  return { lotSize, sampleSize, alike: remainder(1), oneByOne: remainder(0) }
}
